/** One line in a person's own words, or one of a few ready ones with one tap. */
import { useState } from 'react';
import { Leaf } from './leaf.tsx';

interface WordsLeafProps {
  readonly title: string;
  readonly lede: string;
  readonly label: string;
  readonly go: string;
  readonly quick?: readonly string[];
  readonly onLeave: () => void;
  readonly onWords: (words: string) => void;
}

export function WordsLeaf({ title, lede, label, go, quick = [], onLeave, onWords }: WordsLeafProps) {
  const [words, setWords] = useState('');
  const give = (text: string) => {
    onWords(text);
    onLeave();
  };
  return (
    <Leaf title={title} onLeave={onLeave}>
      <p className="lede">{lede}</p>
      {quick.length > 0 && (
        <div className="choices">
          {quick.map((q) => (
            <button type="button" key={q} className="key" onClick={() => give(q)}>
              {q}
            </button>
          ))}
        </div>
      )}
      <form
        onSubmit={(e) => {
          e.preventDefault();
          if (words.trim() !== '') give(words.trim());
        }}
      >
        <label className="cell-name" htmlFor="leaf-words">
          {label}
        </label>
        <div className="find">
          <div className="field">
            <input
              id="leaf-words"
              value={words}
              onChange={(e) => setWords(e.target.value)}
              placeholder="in your own words"
            />
          </div>
        </div>
        <div className="keys-line">
          <button type="submit" className="key go" disabled={words.trim() === ''}>
            {go}
          </button>
          <button type="button" className="key" onClick={onLeave}>
            Leave it
          </button>
        </div>
      </form>
    </Leaf>
  );
}
