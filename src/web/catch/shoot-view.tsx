/** Before the bag: the camera, the strip of what was shot, the code to write or print, where it is, and three keys. */
import type { Hand } from '../../domain/rig/rig-types.ts';
import { Photo } from '../photo/photo.tsx';
import { HAND_PATH, HAND_WORD } from '../sheet/hand-mark.tsx';
import { count } from '../words/figures.ts';
import { placeWords } from './carried.ts';
import type { CatchView } from './use-catch.ts';
import type { Shown } from './use-shots.ts';

export function ShootView({ view }: { readonly view: CatchView }) {
  const { shots, adding, acts, ask } = view;
  const n = shots.shown.length;
  return (
    <div className="catch">
      <h1 className="out-of-sight">Catch it</h1>
      <Viewfinder view={view} />
      {adding === null ? (
        <>
          <CodeLine view={view} />
          <PlaceLine view={view} />
        </>
      ) : (
        <div className="code-line">
          <div>
            <p className="eyebrow">more photographs of</p>
            <p className={codeClass(adding)}>{adding}</p>
          </div>
        </div>
      )}
      <div className="bottom keys-of-catch">
        <button type="button" className="key" aria-haspopup="dialog" onClick={() => ask({ kind: 'more' })}>
          Other
        </button>
        <button type="button" className="key go" onClick={acts.bagIt}>
          {adding === null ? 'Bag it' : 'Into the bag'}
          <small>{n === 0 ? 'no photograph yet' : count(n, 'photograph')}</small>
        </button>
        <button type="button" className="key sig" aria-haspopup="dialog" onClick={acts.stuck}>
          Stuck
        </button>
      </div>
    </div>
  );
}

function Viewfinder({ view }: { readonly view: CatchView }) {
  const { camera, shots, acts } = view;
  return (
    <section className="finder" aria-label="Camera">
      {/* The picture before the lens: nothing is spoken in it. */}
      <video ref={camera.video} muted playsInline className={camera.state === 'live' ? 'live' : ''} />
      {camera.state !== 'live' && <Corners />}
      {camera.state === 'starting' && <p className="finder-says">The camera is starting …</p>}
      {camera.state === 'none' ? (
        <label className="shutter-file">
          <ShutterMark />
          <span>Photograph it</span>
          <input
            type="file"
            accept="image/*"
            capture="environment"
            multiple
            className="out-of-sight"
            onChange={(e) => {
              acts.file(e.target.files);
              e.target.value = '';
            }}
          />
        </label>
      ) : (
        <button
          type="button"
          className="shutter"
          aria-label="Shutter"
          disabled={camera.state !== 'live'}
          onClick={acts.shoot}
        >
          <ShutterMark />
        </button>
      )}
      {shots.shown.length > 0 && (
        <ul className="strip" aria-label="Photographs of this bag">
          {shots.shown.map((s, i) => (
            <Shot key={s.key} shown={s} number={i + 1} onDrop={() => shots.drop(s.key)} />
          ))}
        </ul>
      )}
    </section>
  );
}

function Shot({
  shown,
  number,
  onDrop,
}: {
  readonly shown: Shown;
  readonly number: number;
  readonly onDrop: () => void;
}) {
  const alt = `Photograph ${number}`;
  return (
    <li className={shown.shot === null ? 'is-keeping' : undefined}>
      <button type="button" aria-label={`${alt}: leave it out`} onClick={onDrop}>
        {shown.url !== null ? (
          <img src={shown.url} alt={alt} />
        ) : (
          shown.shot && <Photo hash={shown.shot.hash} size="thumb" alt={alt} />
        )}
        <span aria-hidden="true">{number}</span>
      </button>
    </li>
  );
}

function ShutterMark() {
  return (
    <svg viewBox="0 0 92 92" aria-hidden="true">
      <circle cx="46" cy="46" r="43" className="rim" />
      <circle cx="46" cy="46" r="34" className="disc" />
    </svg>
  );
}

/** The corners of a frame, where there is no picture to fill it. */
function Corners() {
  return (
    <svg className="corners" viewBox="0 0 100 100" preserveAspectRatio="none" aria-hidden="true">
      <path d="M4 14V4h10M86 4h10v10M96 86v10H86M14 96H4V86" vectorEffect="non-scaling-stroke" />
    </svg>
  );
}

/** From the thousandth bag on, a code has six figures: a little smaller, and still far above 6 mm. */
export function codeClass(code: string): string {
  return code.length > 5 ? 'code long' : 'code';
}

export function CodeLine({ view }: { readonly view: CatchView }) {
  const { code, carried, acts, ask } = view;
  return (
    <div className="code-line">
      <div>
        <p className="eyebrow">write or print</p>
        {code.code !== null ? (
          <p className={codeClass(code.code)}>{code.code}</p>
        ) : code.isOut ? (
          <button type="button" className="key" aria-haspopup="dialog" onClick={() => ask({ kind: 'roll' })}>
            Number from a roll
            <small>none is left on this device</small>
          </button>
        ) : (
          <p className="code quiet" role="status" aria-label="The next code is coming">
            B…
          </p>
        )}
      </div>
      <HandKey hand={carried.hand} onHand={(hand) => acts.carry({ ...carried, hand })} />
    </div>
  );
}

const NEXT_HAND: Readonly<Record<Hand | 'none', Hand | null>> = { none: 'L', L: 'C', C: 'R', R: null };

/** Shape first: ◀ ◆ ▶, one tap to the next. */
export function HandKey({
  hand,
  onHand,
}: {
  readonly hand: Hand | null;
  readonly onHand: (hand: Hand | null) => void;
}) {
  const word = hand === null ? 'not said' : HAND_WORD[hand];
  return (
    <button
      type="button"
      className="hand-key"
      aria-label={`Hand: ${word}. Change it`}
      onClick={() => onHand(NEXT_HAND[hand ?? 'none'])}
    >
      <svg viewBox="0 0 16 16" aria-hidden="true" className={hand === null ? 'unsaid' : ''}>
        <path d={HAND_PATH[hand ?? 'C']} />
      </svg>
      <small>{hand === null ? 'hand?' : word}</small>
    </button>
  );
}

export function PlaceLine({ view }: { readonly view: CatchView }) {
  const { open, carried, ask } = view;
  const words = placeWords(open.job, carried);
  return (
    <button type="button" className="place-line" aria-haspopup="dialog" onClick={() => ask({ kind: 'place' })}>
      <PinMark />
      <span>
        <b>{words}</b>
        <small>{underPlace(view)}</small>
      </span>
      <span className="change">change</span>
    </button>
  );
}

function underPlace({ carried, open }: CatchView): string {
  if (!open.snapshot.ready) return 'the job is still being read; saving works already';
  if (carried.parts.length > 0)
    return [carried.groupName, carried.pin === null ? '' : 'pinned on the drawing'].filter((w) => w !== '').join(' · ');
  if (carried.pin !== null) return 'pinned on the drawing, no part named';
  return carried.groupName === '' ? 'may stay open; ask later' : 'no part named yet; ask later';
}

function PinMark() {
  return (
    <svg className="pin-mark" viewBox="0 0 24 32" aria-hidden="true">
      <path d="M12 30C6 21 3 16 3 11a9 9 0 0 1 18 0c0 5-3 10-9 19Z" />
      <circle cx="12" cy="11" r="3.2" />
    </svg>
  );
}
