/**
 * A paired device is noted in a job by an entry when it first records there, so that a job handed over still says which
 * device is which. It goes in one batch with the first entry: neither is there without the other.
 */
import type { FastifyRequest } from 'fastify';
import { ok, type Result } from '../../domain/result.ts';
import { draftEntry, type EntryDraft, fullKind, type StoredEntry } from '../../journal/index.ts';
import type { HostedJob } from '../hosted-job.ts';
import type { ServerParts } from '../server-parts.ts';

export async function appendFrom(
  request: FastifyRequest,
  parts: ServerParts,
  job: HostedJob,
  drafts: readonly EntryDraft[],
): Promise<Result<readonly StoredEntry[]>> {
  const device = request.paired;
  const by = drafts[0]?.by;
  if (device === null || by === undefined || job.state.devices.has(device.id)) return job.append(drafts);
  const noted = draftEntry(
    { id: parts.ids.next(), at: parts.clock.now(), by, device: device.id },
    fullKind('device-noted'),
    { device: device.id, name: device.name },
  );
  // A job begins with its opening.
  const accepted = await job.append(job.state.head.seq === 0 ? [...drafts, noted] : [noted, ...drafts]);
  return accepted.ok ? ok(accepted.value.filter((e) => e.digest !== noted.digest)) : accepted;
}
