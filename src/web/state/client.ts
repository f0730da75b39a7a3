/** The few requests the page makes. Each gives a value or a Problem; being away from the shop's machine is one of them. */
import type { Problem } from '../../domain/problem.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import type { EntryDraft, StoredEntry } from '../../journal/entry.ts';
import type { PhotoSize } from '../../journal/ports.ts';
import { webProblem } from './web-problems.ts';

export interface JobListed {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
}

export const AWAY: Problem = webProblem('AWAY');

export async function fetchJobs(): Promise<Result<readonly JobListed[]>> {
  const got = await ask('/api/jobs');
  return got.ok ? ok((await got.value.json()) as readonly JobListed[]) : got;
}

/** All entries after `after`; a long journal comes in several pieces. */
export async function fetchEntries(job: string, after: number): Promise<Result<readonly StoredEntry[]>> {
  const entries: StoredEntry[] = [];
  for (let more = true; more; ) {
    const from = entries.at(-1)?.seq ?? after;
    const got = await ask(`/api/jobs/${encodeURIComponent(job)}/entries?after=${from}`);
    if (!got.ok) return got;
    const lines = (await got.value.text()).split('\n').filter((l) => l !== '');
    entries.push(...lines.map((l) => JSON.parse(l) as StoredEntry));
    more = lines.length > 0 && got.value.headers.get('x-more') === 'true';
  }
  return ok(entries);
}

/** Sends device halves: exact text and digest. Sending twice is harmless (same id, same digest). */
export async function sendDrafts(job: string, drafts: readonly EntryDraft[]): Promise<Result<void>> {
  const got = await ask(`/api/jobs/${encodeURIComponent(job)}/entries`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(drafts.map((d) => ({ body: d.body, digest: d.digest }))),
  });
  return got.ok ? ok(undefined) : got;
}

/** A block of the bag series for this device alone. */
export async function askBagBlock(
  job: string,
  count: number,
  device: string,
): Promise<Result<{ readonly from: number; readonly to: number }>> {
  const got = await ask(`/api/jobs/${encodeURIComponent(job)}/bags/set-aside`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ count, for: device }),
  });
  return got.ok ? ok((await got.value.json()) as { readonly from: number; readonly to: number }) : got;
}

/** The bytes as the body itself. Sending twice is the same as once: they are kept under their hash. */
export async function sendMedia(
  job: string,
  what: 'photo' | 'sound',
  mime: string,
  bytes: ArrayBuffer,
): Promise<Result<string>> {
  const got = await ask(`/api/jobs/${encodeURIComponent(job)}/${what}s`, {
    method: 'POST',
    headers: { 'content-type': mime },
    body: bytes,
  });
  return got.ok ? ok(((await got.value.json()) as { readonly hash: string }).hash) : got;
}

export function photoUrl(job: string, hash: string, size: PhotoSize): string {
  return `/api/jobs/${encodeURIComponent(job)}/photos/${hash}/${size}`;
}

export function followUrl(job: string, after: number): string {
  return `/api/jobs/${encodeURIComponent(job)}/follow?after=${after}`;
}

async function ask(url: string, init?: RequestInit): Promise<Result<Response>> {
  let response: Response;
  try {
    response = await fetch(url, init);
  } catch {
    return failed(AWAY);
  }
  if (response.ok) return ok(response);
  if (response.status >= 502 && response.status <= 504) return failed(AWAY);
  const body: unknown = await response.json().catch(() => null);
  return failed(
    problemIn(body) ?? {
      code: 'ANSWER_UNREADABLE',
      message: `The shop’s machine answered ${response.status}.`,
      remedy: 'Try once more; when it stays, look at the machine that serves this page.',
    },
  );
}

function problemIn(body: unknown): Problem | null {
  if (typeof body !== 'object' || body === null) return null;
  const b = body as Record<string, unknown>;
  const message = b.message ?? b.detail ?? b.title;
  if (typeof b.code !== 'string' || typeof message !== 'string') return null;
  return {
    code: b.code,
    message,
    remedy: typeof b.remedy === 'string' ? b.remedy : 'Look at what was sent and try again.',
  };
}
