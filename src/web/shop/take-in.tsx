/**
 * Taking in what exists already: photographs (as files or a ZIP), a parts list (CSV or XLSX). What would happen is shown
 * first, row by row; nothing is recorded before the key below is pressed. Photographs chosen as files need no network.
 */
import { useRef, useState } from 'react';
import type { Problem } from '../../domain/problem.ts';
import { recording } from '../../journal/commands.ts';
import { deviceId } from '../state/keep.ts';
import { useOpenJob } from '../state/use-job.tsx';
import { count } from '../words/figures.ts';
import { PartsPreview, PhotosPreview } from './previews.tsx';
import { type TakeInAnswer, takeIn } from './take-in-client.ts';

type Stage =
  | { readonly is: 'none' }
  | { readonly is: 'busy'; readonly words: string; readonly share: number | null }
  | { readonly is: 'shown'; readonly file: File; readonly found: TakeInAnswer }
  | { readonly is: 'done'; readonly words: string }
  | { readonly is: 'refused'; readonly problem: Problem };

export function TakeIn() {
  const { job, person, record, keepPhoto } = useOpenJob();
  const [stage, setStage] = useState<Stage>({ is: 'none' });
  const [map, setMap] = useState<Readonly<Record<string, string>>>({});
  const files = useRef<HTMLInputElement>(null);
  const photos = useRef<HTMLInputElement>(null);

  const look = async (file: File, columns: Readonly<Record<string, string>>) => {
    setMap(columns);
    setStage({ is: 'busy', words: `Looking through ${file.name} …`, share: null });
    const found = await takeIn({ ...asked(file, columns), preview: true, skip: false });
    setStage(found.ok ? { is: 'shown', file, found: found.value } : { is: 'refused', problem: found.problem });
  };
  const asked = (file: File, columns: Readonly<Record<string, string>>) => ({
    job: job.id,
    file,
    by: person,
    device: deviceId(),
    map: columns,
  });
  const doIt = async (file: File, skip: boolean) => {
    setStage({ is: 'busy', words: `Taking in ${file.name} …`, share: null });
    const done = await takeIn({ ...asked(file, map), preview: false, skip });
    if (!done.ok) return setStage({ is: 'refused', problem: done.problem });
    const n = done.value.answer.recorded;
    setStage({ is: 'done', words: n === 0 ? 'Nothing new was in it.' : `${count(n, 'entry', 'entries')} recorded.` });
  };
  const keepAll = async (list: readonly File[]) => {
    let kept = 0;
    for (const [i, file] of list.entries()) {
      setStage({ is: 'busy', words: `${i + 1} of ${list.length}: ${file.name}`, share: i / list.length });
      const photo = await keepPhoto(file).catch(() => null);
      if (photo === null) continue;
      record(recording('photo-taken', { ...photo, of: ['job'], caption: file.name }));
      kept += 1;
    }
    const rest = list.length - kept;
    const refused = rest === 0 ? '' : ` ${rest} could not be read as pictures and were left.`;
    setStage({ is: 'done', words: `${count(kept, 'photograph')} kept.${refused}` });
  };

  return (
    <section className="take-in" aria-label="Take in what exists">
      <h1>Take in what exists</h1>
      <p className="quiet">
        A parts list as CSV or XLSX, or a ZIP of photographs: you see first what would happen. Times of photographs are
        kept as the camera wrote them; where it wrote no zone, that is said.
      </p>
      <div className="bag-keys">
        <button type="button" className="key go" onClick={() => files.current?.click()}>
          A list or a ZIP
        </button>
        <button type="button" className="key" onClick={() => photos.current?.click()}>
          Photographs
        </button>
      </div>
      <input
        ref={files}
        type="file"
        hidden
        aria-label="A list or a ZIP"
        accept=".csv,.xlsx,.zip,text/csv,application/zip"
        onChange={(e) => {
          const file = e.target.files?.[0];
          e.target.value = '';
          if (file !== undefined) void look(file, {});
        }}
      />
      <input
        ref={photos}
        type="file"
        hidden
        multiple
        accept="image/*"
        aria-label="Photographs"
        onChange={(e) => {
          const list = [...(e.target.files ?? [])];
          e.target.value = '';
          if (list.length > 0) void keepAll(list);
        }}
      />
      {stage.is === 'busy' && (
        <p role="status">
          {stage.words}
          <progress {...(stage.share !== null && { value: stage.share })} />
        </p>
      )}
      {stage.is === 'done' && <p role="status">{stage.words}</p>}
      {stage.is === 'refused' && (
        <p className="sig-line" role="alert">
          {stage.problem.message}. {stage.problem.remedy}
        </p>
      )}
      {stage.is === 'shown' && stage.found.is === 'photos' && (
        <PhotosPreview answer={stage.found.answer} onDo={() => void doIt(stage.file, false)} />
      )}
      {stage.is === 'shown' && stage.found.is === 'parts' && (
        <PartsPreview
          answer={stage.found.answer}
          onMap={(next) => void look(stage.file, { ...map, ...next })}
          onDo={(skip) => void doIt(stage.file, skip)}
        />
      )}
    </section>
  );
}
