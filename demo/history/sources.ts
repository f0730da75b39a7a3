/**
 * The logbook lines of the invented aircraft and the evidence cards of the shop. INVENTED, every word.
 *
 * A log line keeps the original beside the plain English and the doubt of the reading; neither is ever put in the other's
 * place. An evidence card states what is there, with no opinion.
 */
export interface LogLine {
  readonly id: string;
  readonly date: string;
  readonly original: string;
  readonly english: string;
  /** What is doubtful in the reading; absent: nothing. */
  readonly doubt?: string;
}

export interface EvidenceCard {
  readonly id: string;
  /** Parts of the list. */
  readonly where: readonly string[];
  readonly fact: string;
}

export const LOG_LINES: readonly LogLine[] = [
  {
    id: 'ES-1',
    date: '1936-06-12',
    original:
      'Entregado en Punta Ostrea. Horas totales 4 h 10 min. Tren comprobado en seco, veinte maniobras, sin novedad.',
    english: 'Delivered. Total 4 h 10. Gear cycled dry twenty times, nothing to report.',
  },
  {
    id: 'ES-2',
    date: '1937-02-03',
    original: 'Amaraje brusco con mar de fondo. Fondo hundido entre cuadernas 4 y 6. Se achica y se remolca.',
    english: 'Rough alighting in a swell. Bottom stove in between frames 4 and 6. Pumped out, towed.',
  },
  {
    id: 'ES-3',
    date: '1937-03-19',
    original: 'Enderezado el fondo en frío; remaches nuevos de 3,2. Vía de agua corregida. […] en quilla.',
    english: 'Bottom straightened cold; new 3.2 rivets. Leak cured. […] at keel.',
    doubt: 'one word unreadable',
  },
  {
    id: 'ES-4',
    date: '1938-07-08',
    original: 'Golpe de gaviota en montante derecho trasero; mella sin grieta.',
    english: 'Gull struck right REAR strut; dent, no crack.',
    doubt: 'dent now on FRONT: see Q-17',
  },
  {
    id: 'ES-5',
    date: '1941-05-30',
    original: 'Muelle de la rueda de cola sustituido por otro de la casa, n.º 7-441.',
    english: "Tail-wheel spring replaced by the maker's, no. 7-441.",
    doubt: 'last digit 1 or 7',
  },
  {
    id: 'ES-6',
    date: '1944-09-14',
    original: 'Husillo izquierdo engrasado; juego 0,15. Derecho sin juego.',
    english: 'Left screw greased; play 0.15. Right none.',
  },
  {
    id: 'ES-7',
    date: '1946-01-09',
    original: 'Baja en el servicio. Horas totales 1 912 h. Vendido al extranjero.',
    english: 'Withdrawn. 1,912 h. Sold abroad.',
  },
  {
    id: 'FR-1',
    date: '1947-04-02',
    original:
      "Convoyage par voie d'eau. Coque vérifiée, deux boulons de pylône remplacés (filetage anglais, faute de mieux).",
    english: 'Ferried by water. Hull checked, two pylon bolts replaced (British thread, for want of better).',
    doubt: 'two; we found one',
  },
  {
    id: 'FR-2',
    date: '1949-08-18',
    original: "Roulette de queue : ressort cassé, monté ressort d'automobile, à remplacer.",
    english: 'Tail-wheel: spring broken, car spring fitted, to be replaced.',
  },
  {
    id: 'FR-3',
    date: '1952-06-21',
    original: 'Amerrissage train sorti. Capotage partiel, étrave enfoncée. Mât arrière droit flambé.',
    english: 'Alighted with gear down. Partial nose-over, bow stove in. Right rear strut buckled.',
  },
  {
    id: 'FR-4',
    date: '1952-09-30',
    original: 'Réparé sur place. Mât droit refait en tube du commerce. Tôle avant rapportée.',
    english: 'Repaired on the spot. Right strut remade in trade tube. Patch on the bow.',
  },
  {
    id: 'FR-5',
    date: '1957-03-11',
    original: "Écrou de vis droit refait à l'atelier du lac, pas 5,08. Orifice droit agrandi, jambe trop dure.",
    english: 'Right jack nut remade at the lake workshop, pitch 5.08. Right orifice enlarged, leg too stiff.',
    doubt: '5,08 or 5,03',
  },
  {
    id: 'FR-6',
    date: '1958-10-05',
    original: 'Hydravion tiré sur la cale par la queue. Pivot de roulette faussé.',
    english: 'Hauled up the slip by the tail. Tail-wheel pivot bent.',
  },
  {
    id: 'DE-1',
    date: '1959-05-14',
    original: 'Übernommen. Bordbuch unvollständig, Seiten 31 bis 38 fehlen.',
    english: 'Taken over. Log incomplete, pages 31 to 38 missing.',
  },
  {
    id: 'DE-2',
    date: '1960-07-02',
    original: 'Federbein rechts undicht, Ventil mit Lack abgedichtet.',
    english: 'Right strut leaks, valve sealed with varnish.',
  },
  {
    id: 'DE-3',
    date: '1961-08-27',
    original: 'Motor nach Treibholz schlagartig stehen geblieben; Luftschraube ersetzt, Welle nicht geprüft.',
    english: 'Engine stopped dead after driftwood; propeller replaced, shaft not checked.',
  },
  {
    id: 'DE-4',
    date: '1962-06-10',
    original: 'Positionslampe rechts ersetzt (rot, grün nicht lieferbar).',
    english: 'Right position lamp replaced (red, green not to be had).',
  },
  {
    id: 'DE-5',
    date: '1963-09-29',
    original: 'Stillgelegt. Gesamtstunden 3.406. Im Bootshaus aufgebockt.',
    english: 'Laid up. 3,406 h. Put on trestles in the boathouse.',
    doubt: 'note the German "3.406" = 3406',
  },
];

export const EVIDENCE: readonly EvidenceCard[] = [
  { id: 'E-01', where: ['01-25'], fact: 'plate "O.7 N.º 23", two of four rivets dome-headed' },
  { id: 'E-02', where: ['11-05'], fact: 'cowl halves stamped 19 and 23' },
  { id: 'E-03', where: ['01-08', '01-09'], fact: 'both planks dished evenly between C4 and C6, rivet lines high' },
  { id: 'E-04', where: ['01-10'], fact: 'patch: soft aluminium 1.2, rivets 4.0 at 32 mm, edge 5 mm' },
  { id: 'E-05', where: ['01-01'], fact: 'filler 4 mm; under it dent 60 mm, blue paint inside dent' },
  { id: 'E-06', where: ['03-04'], fact: 'pipe 42.4 × 3.25, straight butt weld, no sleeve' },
  { id: 'E-06b', where: ['10-05'], fact: 'washer stack for a lower spring seat' },
  { id: 'E-06c', where: ['10-20'], fact: 'steel nail as shear pin' },
  { id: 'E-07', where: ['05-02'], fact: 'keel worn through over 90 mm, tin plate soldered' },
  { id: 'E-08', where: ['02-19', '10-09'], fact: 'C19 rear flange folded aft; trunnion block bent 1.8 mm' },
  { id: 'E-09', where: ['02-02'], fact: 'tear 140 mm, edges bright, no paint on torn faces' },
  { id: 'E-10', where: ['02-06'], fact: 'crack 11 mm: first 6 mm dark, last 5 mm bright' },
  { id: 'E-11', where: ['04-02'], fact: 'kink 1.2 mm at rib 11, upper side' },
  { id: 'E-12', where: ['02-11'], fact: 'pencil "23 izq." on port diaphragm' },
  { id: 'E-13', where: ['09-08'], fact: 'scribed line on shaft runs 4° out of true' },
  { id: 'E-14', where: ['04-21'], fact: 'layers: silver 3, grey 2, blue 1, primer' },
  { id: 'E-15', where: ['09-16'], fact: '5 threads per inch, only one flank bright' },
  { id: 'E-16', where: ['03-10'], fact: 'bolt 1/2 in BSF, head mark' },
  { id: 'E-17', where: ['01-05'], fact: 'brass hinge, slotted wood screws' },
  { id: 'E-18', where: ['04-17'], fact: 'pin no. 2 has no wire and no wire mark' },
  { id: 'E-19', where: ['01-24'], fact: 'pale square, 80 mm' },
  { id: 'E-20', where: ['08-01'], fact: 'chain-link dents at 37 mm pitch on the leg' },
  { id: 'E-21', where: ['08-09'], fact: 'hard varnish in valve bore' },
  { id: 'E-23', where: ['03-21'], fact: 'dent 30 mm long on the front strut, feather barb in the paint' },
  { id: 'E-22', where: ['12-23'], fact: 'red glass on starboard side' },
];
