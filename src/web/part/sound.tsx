/** A voice note wherever it is now: on this device, else on the shop's machine. */
import { useEffect, useState } from 'react';
import type { DataOf } from '../../journal/kinds/kinds.ts';
import { type Noted, nameOf, type State } from '../../journal/state.ts';
import { mediaBytes } from '../state/keep-media.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { dayWords, hourOf } from '../words/figures.ts';

type Kept = Noted<DataOf<'sound-kept'>>;

export function Sounds({ state, sounds }: { readonly state: State; readonly sounds: readonly Kept[] }) {
  if (sounds.length === 0) return null;
  return (
    <section className="sounds">
      <h2>Voice notes</h2>
      {sounds.map((s) => (
        <Sound key={s.hash} state={state} sound={s} />
      ))}
    </section>
  );
}

function Sound({ state, sound }: { readonly state: State; readonly sound: Kept }) {
  const { job } = useOpenJob();
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    let made: string | null = null;
    let current = true;
    void mediaBytes(job.id, sound.hash)
      .catch(() => null)
      .then((bytes) => {
        if (!current) return;
        if (bytes !== null) made = URL.createObjectURL(new Blob([bytes], { type: sound.mime }));
        setUrl(made ?? `/api/jobs/${encodeURIComponent(job.id)}/sounds/${sound.hash}`);
      });
    return () => {
      current = false;
      if (made !== null) URL.revokeObjectURL(made);
    };
  }, [job.id, sound]);
  const who = `${nameOf(state, sound.said.by)}, ${dayWords(sound.said.at)} ${hourOf(sound.said.at)}`;
  return (
    <figure>
      {/* biome-ignore lint/a11y/useMediaCaption: the words, where somebody has written them down, stand below */}
      {url !== null && <audio controls preload="none" src={url} aria-label={`Voice note, ${who}`} />}
      <figcaption>
        {who}
        {sound.transcript !== undefined &&
          ` · “${sound.transcript.text}”${sound.transcript.machine ? ' (written by a machine)' : ''}`}
      </figcaption>
    </figure>
  );
}
