/**
 * Find a bag by its code: held before the camera, in a photograph of the phone's own camera, or typed from the bag. The
 * check letter catches a digit read wrongly; a code that does not hold is said so and opens nothing.
 */
import { useEffect, useRef, useState } from 'react';
import { type BagCode, readBagCode } from '../../domain/bag-code.ts';
import { useCamera } from '../catch/use-camera.ts';
import { Leaf } from '../sheet/leaf.tsx';
import { bagsIn, warmReader } from './read-codes.ts';

export interface ScanLeafProps {
  readonly onBag: (bag: BagCode) => void;
  readonly onLeave: () => void;
}

const LOOK_EVERY_MS = 250;
/** Enough for a label at arm's length; a whole frame of a phone takes five times as long. */
const LOOK_WIDTH = 1_000;

export function ScanLeaf({ onBag, onLeave }: ScanLeafProps) {
  const camera = useCamera(true);
  const [says, setSays] = useState('Hold the label before the camera.');
  const found = useRef(onBag);
  found.current = onBag;
  useEffect(warmReader, []);
  useEffect(() => {
    if (camera.state !== 'live') return;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let current = true;
    const look = async () => {
      const frame = frameOf(camera.video.current);
      const bags = frame === null ? [] : await bagsIn(frame).catch(() => null);
      if (!current) return;
      if (bags === null) setSays('The reader for labels could not be fetched. Type the code below.');
      else if (bags[0] !== undefined) return found.current(bags[0]);
      timer = setTimeout(() => void look(), LOOK_EVERY_MS);
    };
    void look();
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [camera.state, camera.video]);

  const still = async (file: File | undefined) => {
    if (file === undefined) return;
    const bags = await bagsIn(file).catch(() => []);
    if (bags[0] === undefined) setSays('No label of a bag was found in that photograph. Type the code below.');
    else onBag(bags[0]);
  };
  return (
    <Leaf title="Find a bag by its code" onLeave={onLeave}>
      <div className="scan-view">
        <video ref={camera.video} muted playsInline className={camera.state === 'live' ? '' : 'out-of-sight'} />
        {camera.state === 'none' && (
          <label className="key shoot-file">
            Photograph the label
            <input
              type="file"
              accept="image/*"
              capture="environment"
              className="out-of-sight"
              onChange={(e) => void still(e.target.files?.[0])}
            />
          </label>
        )}
      </div>
      <p className="lede" role="status">
        {says}
      </p>
      <TypedCode onBag={onBag} onLeave={onLeave} />
    </Leaf>
  );
}

function TypedCode({ onBag, onLeave }: ScanLeafProps) {
  const [text, setText] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  return (
    <form
      onSubmit={(e) => {
        e.preventDefault();
        const read = readBagCode(text);
        if (read.ok) onBag(read.value);
        else setProblem(`${read.problem.message}. ${read.problem.remedy}`);
      }}
    >
      <label className="cell-name" htmlFor="scan-code">
        Or type what stands on the bag
      </label>
      <div className="find">
        <div className="field">
          <input
            id="scan-code"
            className="num"
            autoCapitalize="characters"
            autoComplete="off"
            spellCheck={false}
            value={text}
            onChange={(e) => {
              setText(e.target.value);
              setProblem(null);
            }}
            placeholder="B105C"
          />
        </div>
      </div>
      {problem !== null && (
        <p className="signal" role="alert">
          {problem}
        </p>
      )}
      <div className="keys-line">
        <button type="submit" className="key go" disabled={text.trim() === ''}>
          Open the bag
        </button>
        <button type="button" className="key" onClick={onLeave}>
          Leave it
        </button>
      </div>
    </form>
  );
}

function frameOf(video: HTMLVideoElement | null): ImageData | null {
  if (video === null || video.videoWidth === 0) return null;
  const scale = Math.min(1, LOOK_WIDTH / video.videoWidth);
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(video.videoWidth * scale);
  canvas.height = Math.round(video.videoHeight * scale);
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  if (pen === null) return null;
  pen.drawImage(video, 0, 0, canvas.width, canvas.height);
  return pen.getImageData(0, 0, canvas.width, canvas.height);
}
