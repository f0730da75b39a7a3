/**
 * Parts that may touch an action: what is joined to its parts or is said to be in their way, and is still on.
 *
 * Left out is what can only come off after the action itself (the nut behind its own lock wire): saying that such a
 * part comes first would make the action wait for itself.
 */
import type { JobView } from '../state/job-view.ts';

export function nearParts(job: JobView, action: string, most = 6): readonly string[] {
  const { rig, names } = job;
  const own = new Set(names.partsOf(action));
  const joint = names.attachment(action);
  const joined = rig.attachments.filter((a) => a.joins.some((p) => own.has(p))).flatMap((a) => a.joins);
  const second = rig.attachments.filter((a) => a.joins.some((p) => joined.includes(p))).flatMap((a) => a.joins);
  const blocking = rig.blocks.filter((b) => own.has(b.part)).map((b) => b.by);
  const inside = (part: string): readonly string[] => {
    const within = names.find(part)?.within;
    return within === undefined ? [part] : [part, ...inside(within)];
  };
  const waits = new Set([...(joint?.joins ?? []), ...own].flatMap(inside));
  const isOn = (part: string) =>
    part !== rig.root && !waits.has(part) && !inside(part).some((p) => job.done.has(`remove:${p}`));
  return [...new Set([...blocking, ...joined, ...second])].filter(isOn).slice(0, most);
}
