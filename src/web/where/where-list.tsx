/** The same as the sheet in words: what is marked on it, gravest first. Arrows light a pin, Enter or a tap opens it. */
import { HandMark } from '../sheet/hand-mark.tsx';
import { useRoving } from '../sheet/use-roving.ts';
import { MARK_WORD, type Mark } from './marks.ts';
import { MarkShape } from './pin-layer.tsx';

export interface WhereListProps {
  readonly marks: readonly Mark[];
  readonly lit: string | null;
  readonly onLit: (subject: string | null) => void;
  readonly onChoose: (subject: string) => void;
}

export function WhereList({ marks, lit, onLit, onChoose }: WhereListProps) {
  const roving = useRoving(
    'Marked on this sheet',
    marks.map((m) => m.subject),
    lit,
    onLit,
    onChoose,
  );
  if (marks.length === 0)
    return (
      <p className="nothing-yet">
        Nothing is marked on this sheet yet: nothing is off, nobody has stopped half way, no pin is set. Tap a part to
        see what is known of it, or set a pin.
      </p>
    );
  return (
    <div className="rows" {...roving.listProps}>
      {marks.map((m) => (
        // biome-ignore lint/a11y/noStaticElementInteractions: the roving props give it the role of an option
        // biome-ignore lint/a11y/useKeyWithClickEvents: the list takes the keys
        <div
          key={m.subject}
          {...roving.rowProps(m.subject)}
          onClick={() => onChoose(m.subject)}
          onFocus={() => onLit(m.subject)}
          onPointerEnter={() => onLit(m.subject)}
          className={['row', 'place-row', m.kind === 'stop' ? 'harmful' : '', m.subject === lit ? 'lit' : '']
            .filter(Boolean)
            .join(' ')}
        >
          <MarkShape kind={m.kind} />
          <span>
            <span className="t">
              {m.name} <HandMark hand={m.hand} />
            </span>
            <span className="w">{m.kind === 'bag' ? m.under : `${MARK_WORD[m.kind]} · ${m.under}`}</span>
          </span>
          <span className="m">{m.isLast ? 'last off' : m.subject}</span>
        </div>
      ))}
    </div>
  );
}
