/** Asks the shop's machine what a file would do, and then to do it. The file is the body itself. */
import type { PilePlan } from '../../app/intake/pile-types.ts';
import type { PartsAnswer } from '../../app/parts-table-answer.ts';
import { failed, ok, type Result } from '../../domain/result.ts';
import { ask } from '../state/client.ts';

export type PhotosAnswer = PilePlan & { readonly recorded: number };
export type TakeInAnswer =
  | { readonly is: 'photos'; readonly answer: PhotosAnswer }
  | { readonly is: 'parts'; readonly answer: PartsAnswer };

export interface TakeInAsk {
  readonly job: string;
  readonly file: File;
  readonly by: string;
  readonly device: string;
  readonly preview: boolean;
  /** Our columns to theirs, for a parts list. */
  readonly map: Readonly<Record<string, string>>;
  readonly skip: boolean;
}

/** A large ZIP over the shop's network takes its time; nobody is kept waiting without a word meanwhile. */
const LONG_MS = 30 * 60_000;

export async function takeIn(a: TakeInAsk): Promise<Result<TakeInAnswer>> {
  const isPile = await looksLikePile(a.file);
  const query = new URLSearchParams({ preview: String(a.preview), by: a.by, device: a.device });
  if (!isPile && Object.keys(a.map).length > 0) query.set('map', JSON.stringify(a.map));
  if (!isPile && a.skip) query.set('skip', 'true');
  const path = `/api/jobs/${encodeURIComponent(a.job)}/import/${isPile ? 'photos' : 'parts'}?${query}`;
  const init = { method: 'POST', headers: { 'content-type': 'application/octet-stream' }, body: a.file };
  const got = await ask(path, init, LONG_MS);
  if (!got.ok) return failed(got.problem);
  const body: unknown = await got.value.json();
  return ok(isPile ? { is: 'photos', answer: body as PhotosAnswer } : { is: 'parts', answer: body as PartsAnswer });
}

/** A workbook is a ZIP too; it is told by its name, a pile of photographs by its first bytes. */
async function looksLikePile(file: File): Promise<boolean> {
  if (/\.xlsx$/i.test(file.name)) return false;
  const head = new Uint8Array(await file.slice(0, 4).arrayBuffer());
  return head[0] === 0x50 && head[1] === 0x4b;
}
