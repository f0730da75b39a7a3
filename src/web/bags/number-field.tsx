/** A whole number with keys as large as a thumb; typing works too. */
interface Props {
  readonly label: string;
  readonly value: number;
  readonly least?: number;
  readonly most?: number | undefined;
  readonly onChange: (n: number) => void;
}

export function NumberField({ label, value, least = 1, most, onChange }: Props) {
  const set = (n: number) => onChange(Math.max(least, Math.min(n, most ?? Number.MAX_SAFE_INTEGER)));
  return (
    <fieldset className="number-field">
      <legend>
        {label}
        {most !== undefined && <small> of {most}</small>}
      </legend>
      <button type="button" className="key" aria-label="one fewer" onClick={() => set(value - 1)}>
        −
      </button>
      <input
        inputMode="numeric"
        aria-label={label}
        value={value}
        onChange={(e) => {
          const n = Number(e.target.value.replace(/\D/g, ''));
          if (Number.isSafeInteger(n)) set(n);
        }}
      />
      <button type="button" className="key" aria-label="one more" onClick={() => set(value + 1)}>
        +
      </button>
    </fieldset>
  );
}
