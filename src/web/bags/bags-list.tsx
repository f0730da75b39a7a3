/** The list of bags by shelf. Only what is in sight is drawn: a shop has over a thousand bags, a long job five thousand. */
import { useVirtualizer } from '@tanstack/react-virtual';
import { type KeyboardEvent, useEffect, useRef } from 'react';
import { Photo } from '../photo/photo.tsx';
import { HandMark } from '../sheet/hand-mark.tsx';
import { usePhone } from '../where/use-phone.ts';
import { BagMark } from './bag-shape.tsx';
import type { BagLine } from './bags-rows.ts';

interface Props {
  readonly lines: readonly BagLine[];
  readonly chosen: string | null;
  readonly onChoose: (code: string) => void;
}

export function BagsList({ lines, chosen, onChoose }: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const phone = usePhone();
  const rows = useVirtualizer({
    count: lines.length,
    getScrollElement: () => frame.current,
    estimateSize: (i) => (lines[i]?.is === 'head' ? 46 : phone ? 84 : 64),
    overscan: 8,
  });
  const at = lines.findIndex((l) => l.is === 'bag' && l.code === chosen);
  useEffect(() => {
    if (at >= 0) rows.scrollToIndex(at, { align: 'auto' });
  }, [at, rows]);

  const keys = (e: KeyboardEvent) => {
    const by = e.key === 'ArrowDown' ? 1 : e.key === 'ArrowUp' ? -1 : 0;
    if (by === 0) return;
    e.preventDefault();
    for (let i = at + by; i >= 0 && i < lines.length; i += by) {
      const line = lines[i];
      if (line?.is === 'bag') return onChoose(line.code);
    }
  };
  return (
    <div
      ref={frame}
      className="bags-list"
      role="listbox"
      tabIndex={0}
      aria-label="Bags"
      aria-activedescendant={at >= 0 ? `bag-${chosen}` : undefined}
      onKeyDown={keys}
    >
      <div role="presentation" style={{ height: rows.getTotalSize(), position: 'relative' }}>
        {rows.getVirtualItems().map((v) => {
          const line = lines[v.index];
          if (line === undefined) return null;
          const style = { transform: `translateY(${v.start}px)`, height: v.size };
          return line.is === 'head' ? (
            <p key={line.id} role="presentation" className="bag-head" style={style}>
              {line.name} <span className="num">{line.count}</span>
            </p>
          ) : (
            <BagOption key={line.code} line={line} isOn={line.code === chosen} style={style} onChoose={onChoose} />
          );
        })}
      </div>
    </div>
  );
}

interface OptionProps {
  readonly line: BagLine & { readonly is: 'bag' };
  readonly isOn: boolean;
  readonly style: { readonly transform: string; readonly height: number };
  readonly onChoose: (code: string) => void;
}

function BagOption({ line, isOn, style, onChoose }: OptionProps) {
  const act = { onClick: () => onChoose(line.code) };
  return (
    <div
      id={`bag-${line.code}`}
      role="option"
      aria-selected={isOn}
      tabIndex={-1}
      className="bag-row"
      style={style}
      {...act}
    >
      <b className="code">{line.code}</b>
      <span className="what">
        <span>
          <HandMark hand={line.hand} /> {line.what}
        </span>
        <small className={line.clash || line.shape === 'loose' ? 'sig' : undefined}>
          <BagMark shape={line.shape} /> {line.clash ? 'opened twice · ' : ''}
          {line.word}
        </small>
      </span>
      {line.photo === null ? (
        <span className="no-thumb" />
      ) : (
        <Photo hash={line.photo} size="thumb" alt="" className="thumb" />
      )}
    </div>
  );
}
