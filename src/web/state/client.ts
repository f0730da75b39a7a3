/**
 * Every request the page makes to the shop's machine. Each gives a value or a Problem; being away from the machine is one
 * of them. They go to the page's own address or to another one of the shop (way.ts), then with the token from pairing.
 */
import type { Problem } from '../../domain/problem.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import type { EntryDraft, Head, StoredEntry } from '../../journal/entry.ts';
import type { PhotoSize } from '../../journal/ports.ts';
import { type Way, wayNow } from './way.ts';
import { webProblem } from './web-problems.ts';

export interface JobListed {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  readonly day?: string;
  readonly head?: Head;
}

export const AWAY: Problem = webProblem('AWAY');
/** A machine that took the request and says nothing for so long is away. Photographs over poor Wi-Fi get longer. */
const ANSWER_MS = 20_000;
const MEDIA_MS = 5 * 60_000;

const jobPath = (job: string, tail: string): string => `/api/jobs/${encodeURIComponent(job)}/${tail}`;
const json = (body: unknown): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(body),
});

export async function fetchJobs(): Promise<Result<readonly JobListed[]>> {
  const got = await ask('/api/jobs');
  return got.ok ? ok((await got.value.json()) as readonly JobListed[]) : got;
}

/** All entries after `after`; a long journal comes in several pieces. */
export async function fetchEntries(job: string, after: number): Promise<Result<readonly StoredEntry[]>> {
  const entries: StoredEntry[] = [];
  for (let more = true; more; ) {
    const from = entries.at(-1)?.seq ?? after;
    const got = await ask(jobPath(job, `entries?after=${from}`), undefined, MEDIA_MS);
    if (!got.ok) return got;
    const text = await got.value.text().catch(() => null);
    if (text === null) return failed(AWAY);
    const lines = text.split('\n').filter((l) => l !== '');
    entries.push(...lines.map((l) => JSON.parse(l) as StoredEntry));
    more = lines.length > 0 && got.value.headers.get('x-more') === 'true';
  }
  return ok(entries);
}

/** Sends device halves: exact text and digest. Sending twice is harmless (same id, same digest). */
export async function sendDrafts(job: string, drafts: readonly EntryDraft[]): Promise<Result<void>> {
  const got = await ask(jobPath(job, 'entries'), json(drafts.map((d) => ({ body: d.body, digest: d.digest }))));
  return got.ok ? ok(undefined) : got;
}

/** A block of the bag series for this device alone. */
export async function askBagBlock(
  job: string,
  count: number,
  device: string,
): Promise<Result<{ readonly from: number; readonly to: number }>> {
  const got = await ask(jobPath(job, 'bags/set-aside'), json({ count, for: device }));
  return got.ok ? ok((await got.value.json()) as { readonly from: number; readonly to: number }) : got;
}

/** The bytes as the body itself. Sending twice is the same as once: they are kept under their hash. */
export async function sendMedia(
  job: string,
  what: 'photo' | 'sound',
  mime: string,
  bytes: ArrayBuffer,
): Promise<Result<string>> {
  const init = { method: 'POST', headers: { 'content-type': mime }, body: bytes };
  const got = await ask(jobPath(job, `${what}s`), init, MEDIA_MS);
  return got.ok ? ok(((await got.value.json()) as { readonly hash: string }).hash) : got;
}

/** Whether the machine has a photograph or sound already, so that large bytes are not sent twice. */
export async function hasMedia(job: string, what: 'photo' | 'sound', hash: string): Promise<boolean> {
  const got = await ask(jobPath(job, what === 'photo' ? `photos/${hash}/thumb` : `sounds/${hash}`), { method: 'HEAD' });
  return got.ok;
}

export function photoUrl(job: string, hash: string, size: PhotoSize): string {
  return jobPath(job, `photos/${hash}/${size}`);
}

/** For a page whose shop is at another address: an `<img>` cannot bring a token. */
export async function fetchPhoto(job: string, hash: string, size: PhotoSize): Promise<Blob | null> {
  const got = await ask(photoUrl(job, hash, size), undefined, MEDIA_MS);
  return got.ok ? got.value.blob().catch(() => null) : null;
}

export interface Hello {
  readonly time: string;
  readonly addresses: { readonly tls: readonly string[]; readonly plain: readonly string[] };
  readonly device: { readonly id: string; readonly name: string } | null;
}

/** The machine's clock, its addresses, and who it says this device is. */
export async function sayHello(): Promise<Result<Hello>> {
  const got = await ask('/api/shop/hello');
  return got.ok ? ok((await got.value.json()) as Hello) : got;
}

export async function ask(path: string, init?: RequestInit, within = ANSWER_MS): Promise<Result<Response>> {
  let response: Response;
  try {
    response = await fetch(...requestOf(wayNow(), path, { signal: AbortSignal.timeout(within), ...init }));
  } catch {
    return failed(AWAY);
  }
  if (response.ok) return ok(response);
  return failed(await problemOf(response));
}

export function requestOf(way: Way, path: string, init: RequestInit): [string, RequestInit] {
  if (way.address === '') return [path, init];
  const headers = new Headers(init.headers);
  if (way.token !== null) headers.set('authorization', `Bearer ${way.token}`);
  return [way.address + path, { ...init, headers, mode: 'cors', credentials: 'omit' }];
}

export async function problemOf(response: Response): Promise<Problem> {
  if (response.status >= 502 && response.status <= 504) return AWAY;
  const body: unknown = await response.json().catch(() => null);
  return (
    problemIn(body) ?? {
      code: 'ANSWER_UNREADABLE',
      message: `The shop’s machine answered ${response.status}.`,
      remedy: 'Try once more; when it stays, look at the machine that serves this page.',
    }
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
