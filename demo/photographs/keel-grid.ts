/** The grid G-1 of the invented aircraft: thickness of the fore keel plate in squares of 20 mm, nominal 2.00 mm. INVENTED. */
export const G1: readonly (readonly string[])[] = [
  ['1.98', '1.97', '1.95', '1.90', '1.88', '1.92', '1.96', '1.98'],
  ['1.96', '1.90', '1.78', '1.66', '1.60', '1.74', '1.90', '1.97'],
  ['1.95', '1.84', '1.62', '1.52', '1.50', '1.63', '1.86', '1.96'],
  ['1.97', '1.92', '1.80', '1.71', '1.69', '1.79', '1.93', '1.98'],
];
/** What is gone of the plate, in millimetres. */
export const G1_LOST: readonly (readonly number[])[] = G1.map((row) => row.map((t) => 2 - Number(t)));
