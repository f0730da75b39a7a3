/** Parts that may touch an action: what is joined to its parts or is said to be in their way, and is still on. */
import type { JobView } from '../state/job-view.ts';

export function nearParts(job: JobView, action: string, most = 6): readonly string[] {
  const own = new Set(job.names.partsOf(action));
  const joined = job.rig.attachments.filter((a) => a.joins.some((p) => own.has(p))).flatMap((a) => a.joins);
  const second = job.rig.attachments.filter((a) => a.joins.some((p) => joined.includes(p))).flatMap((a) => a.joins);
  const blocking = job.rig.blocks.filter((b) => own.has(b.part)).map((b) => b.by);
  const isOn = (part: string) => !job.done.has(`remove:${part}`) && part !== job.rig.root && !own.has(part);
  return [...new Set([...blocking, ...joined, ...second])].filter(isOn).slice(0, most);
}
