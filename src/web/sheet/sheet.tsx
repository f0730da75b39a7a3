/**
 * The sheet every view is drawn on: index at the left, list, drawing, title block at the lower right. On a phone the
 * index and title block give way to a heading with the network in words.
 */
import { Fragment, type ReactNode, useEffect } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { Link } from 'wouter';
import { THEMES, type Theme } from './theme.ts';
import { VIEWS, type ViewId } from './views.ts';

export interface SheetProps {
  /** What the browser calls the page. */
  readonly name: string;
  readonly view: ViewId;
  readonly search: string;
  readonly counts: Partial<Record<ViewId, string | undefined>>;
  readonly invented: boolean;
  /** Keys of this screen and what they do. */
  readonly keys: readonly (readonly [string, string])[];
  readonly theme: Theme;
  readonly onTheme: (theme: Theme) => void;
  readonly showDraw: boolean;
  readonly top: ReactNode;
  readonly list: ReactNode;
  readonly draw: ReactNode;
  readonly title: ReactNode;
}

const THEME_WORD: Readonly<Record<Theme, string>> = { auto: 'Auto', day: 'Day', night: 'Night' };

export function Sheet(p: SheetProps) {
  useEffect(() => {
    document.title = `${p.name} · Witnessmark`;
  }, [p.name]);
  return (
    <div className={p.showDraw ? 'sheet show-draw' : 'sheet'}>
      <div className="grid">
        {p.top}
        <header className="index">
          <div className="mark">
            <Mark />
            Witnessmark
          </div>
          <nav aria-label="Index of sheets">
            {VIEWS.map((v) => (
              <IndexLink key={v.id} to={`${v.path}${p.search}`} here={p.view === v.id} count={p.counts[v.id]}>
                {v.name}
              </IndexLink>
            ))}
          </nav>
          <div className="foot">
            <dl className="hint" aria-label="Keys">
              {p.keys.map(([key, does]) => (
                <Fragment key={key}>
                  <dt>
                    <kbd>{key}</kbd>
                  </dt>
                  <dd>{does}</dd>
                </Fragment>
              ))}
            </dl>
            <LightSwitch theme={p.theme} onTheme={p.onTheme} />
            {p.invented && (
              <p className="invented">
                Invented example
                <small>Aircraft, people and figures are made up. Nothing here may be used on a real aircraft.</small>
              </p>
            )}
          </div>
        </header>
        <main className="list">{p.list}</main>
        <section className="draw" aria-label="Drawing">
          {p.draw}
        </section>
        {p.title}
      </div>
    </div>
  );
}

interface IndexLinkProps {
  readonly to: string;
  readonly here: boolean;
  readonly count: string | undefined;
  readonly children: ReactNode;
}

function IndexLink({ to, here, count, children }: IndexLinkProps) {
  return (
    <Link href={to} aria-current={here ? 'page' : undefined}>
      <span>{children}</span>
      {count !== undefined && <b>{count}</b>}
    </Link>
  );
}

function Mark() {
  return (
    <svg viewBox="0 0 32 32" aria-hidden="true">
      <path d="M16 2 28 9v14l-12 7L4 23V9z" />
      <circle cx="16" cy="16" r="6" />
      <path className="w" d="M16 10 16 2" />
    </svg>
  );
}

export interface Light {
  readonly theme: Theme;
  readonly onTheme: (theme: Theme) => void;
}

export function LightSwitch({ theme, onTheme }: Light) {
  return (
    <ToggleButtonGroup
      className="switch"
      aria-label="Light"
      selectionMode="single"
      disallowEmptySelection
      selectedKeys={[theme]}
      onSelectionChange={(keys) => {
        const next = THEMES.find((t) => keys.has(t));
        if (next) onTheme(next);
      }}
    >
      {THEMES.map((t) => (
        <ToggleButton key={t} id={t}>
          {THEME_WORD[t]}
        </ToggleButton>
      ))}
    </ToggleButtonGroup>
  );
}
