/** A voice note, kept as sound. It records from the first moment; leaving keeps what was said so far. */
import { useCallback, useEffect, useRef, useState } from 'react';
import { recording } from '../../journal/commands.ts';
import { Leaf } from '../sheet/leaf.tsx';
import type { CatchView } from './use-catch.ts';

interface VoiceLeafProps {
  readonly view: CatchView;
  readonly onLeave: () => void;
}

const KINDS = ['audio/webm', 'audio/mp4', 'audio/ogg'] as const;

export function VoiceLeaf({ view, onLeave }: VoiceLeafProps) {
  const { open, acts, bag, subject } = view;
  const [state, setState] = useState<'asking' | 'on' | 'none'>('asking');
  const [seconds, setSeconds] = useState(0);
  const about = bag ?? subject;
  const keep = useRef<(blob: Blob, seconds: number) => void>(() => undefined);
  keep.current = (blob, s) => {
    if (blob.size === 0) return;
    void open.keepSound(blob).then(
      (sound) => acts.record('Voice note kept', recording('sound-kept', { ...sound, seconds: s, of: [about] })),
      () => undefined,
    );
  };
  const end = useVoice(setState, setSeconds, keep);
  const leave = () => {
    end();
    onLeave();
  };
  return (
    <Leaf title="Voice note" onLeave={leave}>
      {state === 'none' ? (
        <p className="lede">This browser gives the page no microphone. Allow it for this page, or write it down.</p>
      ) : (
        <p className="voice-clock num" role="timer">
          {Math.floor(seconds / 60)}:{String(seconds % 60).padStart(2, '0')}
        </p>
      )}
      <p className="lede" role="status">
        {state === 'on'
          ? `Listening. It is kept as sound, with ${bag ?? (about === 'job' ? 'the job' : open.job.names.part(about))}.`
          : state === 'asking'
            ? 'Asking for the microphone …'
            : ''}
      </p>
      <div className="keys-line">
        <button type="button" className="key go" onClick={leave}>
          {state === 'none' ? 'Leave it' : 'Keep it'}
        </button>
      </div>
    </Leaf>
  );
}

/** Starts with the leaf; ends, and keeps, with `end` or when the leaf goes for any reason. */
function useVoice(
  onState: (state: 'on' | 'none') => void,
  onSeconds: (seconds: number) => void,
  keep: { readonly current: (blob: Blob, seconds: number) => void },
): () => void {
  const recorder = useRef<MediaRecorder | null>(null);
  const end = useCallback(() => {
    if (recorder.current?.state === 'recording') recorder.current.stop();
  }, []);
  useEffect(() => {
    let current = true;
    let timer: ReturnType<typeof setInterval> | undefined;
    const mime = typeof MediaRecorder === 'undefined' ? undefined : KINDS.find((k) => MediaRecorder.isTypeSupported(k));
    if (mime === undefined || navigator.mediaDevices === undefined) {
      onState('none');
      return;
    }
    navigator.mediaDevices.getUserMedia({ audio: true }).then(
      (stream) => {
        const off = () => {
          for (const track of stream.getTracks()) track.stop();
        };
        if (!current) return off();
        const began = Date.now();
        const pieces: Blob[] = [];
        const made = new MediaRecorder(stream, { mimeType: mime });
        recorder.current = made;
        made.addEventListener('dataavailable', (e) => pieces.push(e.data));
        made.addEventListener('stop', () => {
          off();
          keep.current(new Blob(pieces, { type: mime }), Math.round((Date.now() - began) / 1_000));
        });
        made.start(1_000);
        onState('on');
        timer = setInterval(() => onSeconds(Math.round((Date.now() - began) / 1_000)), 500);
      },
      () => current && onState('none'),
    );
    return () => {
      current = false;
      clearInterval(timer);
      end();
    };
  }, [end, keep, onSeconds, onState]);
  return end;
}
