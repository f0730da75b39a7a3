/** The photographs port in memory, for tests and demonstrations: the same intake, no folder. */
import { failed, ok, type Result } from '../domain/result.ts';
import type { PhotoBytes, Photographs, PhotoInfo, PhotoSize } from '../journal/ports.ts';
import { type TakenIn, takeInPhoto } from './photo-intake.ts';
import { storeProblem } from './store-problems.ts';

export class MemoryPhotographs implements Photographs {
  private readonly kept = new Map<string, TakenIn & { readonly original: Uint8Array }>();

  async put(bytes: Uint8Array): Promise<Result<PhotoInfo>> {
    const taken = await takeInPhoto(bytes);
    if (!taken.ok) return taken;
    this.kept.set(taken.value.info.hash, { ...taken.value, original: Uint8Array.from(bytes) });
    return ok(taken.value.info);
  }

  async get(hash: string, size: PhotoSize): Promise<Result<PhotoBytes>> {
    const kept = this.kept.get(hash);
    if (kept === undefined)
      return failed(storeProblem('PHOTO_NOT_FOUND', `no photograph ${hash.slice(0, 12)}… is here`));
    return ok(
      size === 'original' ? { bytes: kept.original, mime: kept.info.mime } : { bytes: kept[size], mime: 'image/jpeg' },
    );
  }

  async has(hash: string): Promise<boolean> {
    return this.kept.has(hash);
  }
}
