/**
 * Entries as the shop's machine accepts them: server-sent events read from a streamed answer. Not the browser's own
 * EventSource: that cannot bring a token to another address, and does not say why it was turned away. A stream that is
 * silent for longer than the machine ever is (it says something every 15 s) counts as cut: Wi-Fi often dies without a word.
 */
import type { Problem } from '../../domain/problem.ts';
import type { StoredEntry } from '../../journal/entry.ts';
import { AWAY, problemOf, requestOf } from './client.ts';
import { wayNow } from './way.ts';

const SILENT_MS = 40_000;

export interface Following {
  readonly onOpen: () => void;
  readonly onEntries: (entries: readonly StoredEntry[]) => void;
  /** Ended, by whomever; `AWAY` or what the machine said. Not called after `stop`. */
  readonly onEnd: (problem: Problem) => void;
}

/** Gives the function that stops it. */
export function followEntries(job: string, after: number, f: Following): () => void {
  const stopper = new AbortController();
  let isStopped = false;
  let silence: ReturnType<typeof setTimeout> | undefined;
  const heard = (): void => {
    clearTimeout(silence);
    silence = setTimeout(() => stopper.abort(), SILENT_MS);
  };
  const read = async (): Promise<Problem> => {
    heard();
    const path = `/api/jobs/${encodeURIComponent(job)}/follow?after=${after}`;
    const headers = { accept: 'text/event-stream' };
    const response = await fetch(...requestOf(wayNow(), path, { signal: stopper.signal, headers, cache: 'no-store' }));
    if (!response.ok) return problemOf(response);
    if (response.body === null) return AWAY;
    f.onOpen();
    const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
    let rest = '';
    for (;;) {
      const { done, value } = await reader.read();
      if (done || isStopped) return AWAY;
      heard();
      const blocks = (rest + value).split('\n\n');
      rest = blocks.pop() ?? '';
      const entries = blocks.flatMap(entryIn);
      if (entries.length > 0) f.onEntries(entries);
    }
  };
  void read()
    .catch(() => AWAY)
    .then((problem) => {
      clearTimeout(silence);
      if (!isStopped) f.onEnd(problem);
    });
  return () => {
    isStopped = true;
    clearTimeout(silence);
    stopper.abort();
  };
}

function entryIn(block: string): readonly StoredEntry[] {
  const data = block
    .split('\n')
    .filter((l) => l.startsWith('data:'))
    .map((l) => l.slice(5).trim())
    .join('');
  return data === '' ? [] : [JSON.parse(data) as StoredEntry];
}
