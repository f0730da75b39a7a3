/**
 * The stack on the bolt, built by taps from the head to the nut and drawn as it grows. What was tapped is kept on this
 * device until it is noted, so that an interruption costs nothing.
 */
import { useState } from 'react';
import {
  pieceWords,
  printStack,
  readStack,
  STACK_SORTS,
  type StackPiece,
  type StackSort,
} from '../../domain/as-found/washer-stack.ts';
import { StackDrawing } from './pictures/stack-drawing.tsx';

const THICKS = ['0.5', '0.8', '1.0', '1.6', '2.0', '2.5', '3.0', '4.0'] as const;
const STUFFS = ['steel', 'brass', 'dural', 'fibre'] as const;

interface StackAskProps {
  readonly was: string;
  readonly draft: string;
  readonly onNote: (text: string) => void;
}

export function StackAsk({ was, draft, onNote }: StackAskProps) {
  const key = `witnessmark-stack-${draft}`;
  const [stack, setStack] = useState<readonly StackPiece[]>(() => readStack(localStorage.getItem(key) ?? was));
  const put = (next: readonly StackPiece[]) => {
    localStorage.setItem(key, printStack(next));
    setStack(next);
  };
  const last = stack.at(-1);
  const change = (more: Partial<StackPiece>) =>
    last !== undefined && put([...stack.slice(0, -1), { ...last, ...more }]);
  const note = () => {
    localStorage.removeItem(key);
    onNote(printStack(stack));
  };
  return (
    <div className="stack-ask">
      <div className="stack-head">
        <div className="stack-window">
          <StackDrawing stack={stack} />
        </div>
        <p className="stack-words" role="status">
          {stack.length === 0
            ? 'Nothing on it yet. Tap what lay under the head first.'
            : stack.map(pieceWords).join('  |  ')}
        </p>
      </div>
      <ul className="pictures four" aria-label="Put on">
        {STACK_SORTS.map((sort) => (
          <li key={sort}>
            <button type="button" className="key picture" onClick={() => put([...stack, { sort }])}>
              <OnePiece sort={sort} />
              <span>{sort}</span>
            </button>
          </li>
        ))}
      </ul>
      <h3>{last === undefined ? 'Thickness of the last one' : `Thickness of the ${pieceName(last)}, mm`}</h3>
      <ul className="pictures four" aria-label="Thickness of the last one">
        {THICKS.map((t) => (
          <li key={t}>
            <button
              type="button"
              className="key picture"
              disabled={last === undefined}
              aria-pressed={last?.thick === t}
              onClick={() => change({ thick: t })}
            >
              <b className="figure small">{t}</b>
            </button>
          </li>
        ))}
      </ul>
      <ul className="pictures four" aria-label="Material of the last one">
        {STUFFS.map((s) => (
          <li key={s}>
            <button
              type="button"
              className="key picture"
              disabled={last === undefined}
              aria-pressed={last?.words === s}
              onClick={() => change({ words: s })}
            >
              <span>{s}</span>
            </button>
          </li>
        ))}
      </ul>
      <div className="keys-line across stack-keys">
        <button type="button" className="key" disabled={last === undefined} onClick={() => put(stack.slice(0, -1))}>
          Take the last one off
        </button>
        <button type="button" className="key go" disabled={last === undefined} onClick={note}>
          Note the stack
        </button>
      </div>
    </div>
  );
}

function pieceName(piece: StackPiece): string {
  return piece.sort === 'other' ? (piece.words ?? 'last one') : piece.sort;
}

function OnePiece({ sort }: { readonly sort: StackSort }) {
  return <StackDrawing stack={[{ sort }]} one />;
}
