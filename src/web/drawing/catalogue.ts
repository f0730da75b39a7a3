/**
 * Which drawing sheet shows which part. The sheets belong to the invented aircraft of the demo; a job that is not
 * marked invented has none, and its people add photographs and drawings of their own (`where/`).
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

/** Of two sheets of one assembly the one that has all of it stands first. */
export const SHEETS: readonly Omit<DrawingSheet, 'url'>[] = [
  { id: 'tail-wheel-exploded', name: 'Tail-wheel unit', assemblies: ['10'] },
  { id: 'gear-leg-exploded', name: 'Main leg, port', assemblies: ['07'] },
  { id: 'gear-leg-starboard', name: 'Main leg, starboard', assemblies: ['08'] },
  { id: 'gear-drive', name: 'Gear drive', assemblies: ['09'] },
  { id: 'hull-fore', name: 'Hull, fore', assemblies: ['01'] },
  { id: 'hull-aft', name: 'Hull, aft', assemblies: ['02'] },
  { id: 'frame-c9', name: 'Frame C9', assemblies: ['02'] },
  { id: 'wing-centre', name: 'Centre section', assemblies: ['03'] },
  { id: 'wing-panels', name: 'Wing panels', assemblies: ['04'] },
  { id: 'tip-floats', name: 'Tip floats', assemblies: ['05'] },
  { id: 'tail-unit', name: 'Tail unit', assemblies: ['06'] },
  { id: 'engine', name: 'Engine', assemblies: ['11'] },
  { id: 'controls-fuel-electrics', name: 'Controls, fuel, electrics', assemblies: ['12'] },
  { id: 'side', name: 'Side', assemblies: ['01', '11', '06', '12', '03', '05'] },
  { id: 'plan', name: 'Plan', assemblies: ['04', '03', '11'] },
  { id: 'front', name: 'Front', assemblies: ['05', '03', '01', '08'] },
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
