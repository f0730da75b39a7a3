/** As-found values of one joint or part, with the stack drawn in order. What was said before stays in sight. */
import type { ReactNode } from 'react';
import { StackFigure } from '../where/stack-drawing.tsx';
import type { FoundBlock } from './as-found.ts';

export function FoundList({ block, children }: { readonly block: FoundBlock; readonly children?: ReactNode }) {
  const plain = block.rows.filter((r) => !(r.aspect === 'washer-stack' && r.isValue));
  const stack = block.rows.find((r) => r.aspect === 'washer-stack' && r.isValue);
  return (
    <section className="found-block">
      <h2>
        {block.title} <span className="id">{block.subject}</span>
      </h2>
      {block.stack !== null && <StackFigure text={block.stack} />}
      {stack !== undefined && (
        <p className="source">
          From the head to the nut · {stack.source}
          {stack.earlier.map((e) => (
            <del key={e}>{e}</del>
          ))}
        </p>
      )}
      {plain.length > 0 && (
        <dl className="found-list">
          {plain.map((r) => (
            <div key={r.aspect} className={r.isValue ? undefined : 'no-value'}>
              <dt>{r.name}</dt>
              <dd>
                {r.words}
                <small>{r.source}</small>
                {r.earlier.map((e) => (
                  <del key={e}>{e}</del>
                ))}
              </dd>
            </div>
          ))}
        </dl>
      )}
      {block.rows.length === 0 && <p className="owed">Nothing noted of it yet.</p>}
      {children}
    </section>
  );
}
