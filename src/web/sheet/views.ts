/** The views of the page: their addresses and names (docs/glossary.md). One list for index, phone and routes. */
export const VIEWS = [
  { id: 'floor', path: '/floor', name: 'Floor today', short: 'Floor' },
  { id: 'catch', path: '/catch', name: 'Catch it', short: 'Catch' },
  { id: 'where', path: '/where', name: 'Where it sat', short: 'Where' },
  { id: 'off', path: '/off', name: 'Getting it off', short: 'Off' },
  { id: 'bags', path: '/bags', name: 'Bags and shelves', short: 'Bags' },
  { id: 'part', path: '/part', name: 'One part', short: 'Part' },
  { id: 'fits', path: '/fits', name: 'What fits next', short: 'Fits' },
  { id: 'find', path: '/find', name: 'Find anything', short: 'Find' },
  { id: 'shop', path: '/shop', name: 'Shop and devices', short: 'Shop' },
] as const;

export type ViewId = (typeof VIEWS)[number]['id'];

export function viewName(id: ViewId): string {
  return VIEWS.find((v) => v.id === id)?.name ?? id;
}
