/**
 * Which drawing sheet shows which part. The sheets belong to the invented aircraft of the demo; a job that is not
 * marked invented has none yet, and its screens show the tags alone.
 */
const URLS = import.meta.glob<string>('../../../demo/drawings/*.svg', {
  query: '?url',
  import: 'default',
  eager: true,
});

export interface DrawingSheet {
  readonly id: string;
  readonly name: string;
  readonly url: string;
  /** Assemblies of the parts list it shows, best first. */
  readonly assemblies: readonly string[];
}

const SHEETS: readonly Omit<DrawingSheet, 'url'>[] = [
  { id: 'tail-wheel-exploded', name: 'Tail-wheel unit', assemblies: ['10'] },
  { id: 'gear-leg-exploded', name: 'Main leg', assemblies: ['07', '08'] },
  { id: 'gear-drive', name: 'Gear drive', assemblies: ['09'] },
  { id: 'frame-c9', name: 'Frame C9', assemblies: ['02'] },
  { id: 'side', name: 'Side', assemblies: ['01', '11', '06', '12', '03', '05'] },
  { id: 'plan', name: 'Plan', assemblies: ['04', '03', '11'] },
  { id: 'front', name: 'Front', assemblies: ['05', '03', '01'] },
];

function urlOf(id: string): string | undefined {
  return Object.entries(URLS).find(([path]) => path.endsWith(`/${id}.svg`))?.[1];
}

export function sheetsOfJob(invented: boolean): readonly DrawingSheet[] {
  if (!invented) return [];
  return SHEETS.flatMap((s) => {
    const url = urlOf(s.id);
    return url === undefined ? [] : [{ ...s, url }];
  });
}

/** The sheet that shows an assembly best; the side view when none does. */
export function sheetFor(sheets: readonly DrawingSheet[], assembly: string | null): DrawingSheet | undefined {
  return (
    sheets.find((s) => assembly !== null && s.assemblies[0] === assembly) ??
    sheets.find((s) => assembly !== null && s.assemblies.includes(assembly)) ??
    sheets.find((s) => s.id === 'side')
  );
}
