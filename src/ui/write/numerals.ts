/**
 * Figures drawn with one round brush, as the smoke is: each a centre line in a box 60 wide and 100 high, made for a
 * brush of {@link NUMERAL_BRUSH}, so that a drawn figure fills the box's height exactly. Open shapes keep 3, 6, 8
 * and 9 apart when the panel shakes. Own drawings.
 */
export const NUMERALS: Readonly<Record<string, string>> = {
  '0': 'M30 8C44 8 52 24 52 50S44 92 30 92 8 76 8 50 16 8 30 8Z',
  '1': 'M14 25 35 8V92',
  '2': 'M9 31C9 17 18 8 30 8S51 16 51 29C51 42 43 50 34 61L9 92H52',
  '3': 'M10 8H49L27 41C42 41 52 51 52 66 52 82 42 92 28 92 19 92 12 88 8 81',
  '4': 'M41 92V8L8 69H52',
  '5': 'M48 8H14L11 46C16 41 22 38 29 38 43 38 52 49 52 65 52 81 43 92 28 92 19 92 12 88 8 82',
  '6': 'M45 9C24 17 8 39 8 66 8 82 17 92 30 92S52 82 52 67 43 43 30 43C20 43 11 50 9 60',
  '7': 'M8 8H52L23 92',
  '8': 'M30 46C18 46 11 38 11 27 11 16 19 8 30 8S49 16 49 27C49 38 42 46 30 46 17 46 8 55 8 69 8 83 17 92 30 92S52 83 52 69C52 55 43 46 30 46Z',
  '9': 'M15 91C36 83 52 61 52 34 52 18 43 8 30 8S8 18 8 33 17 57 30 57C40 57 49 50 51 40',
  ':': 'M13 34V34.1M13 76V76.1',
};

export const NUMERAL_BRUSH = 16;
export const NUMERAL_HEIGHT = 100;
/** From one figure's left edge to the next one's: figures stand in columns, a colon asks for less. */
export function numeralAdvance(figure: string): number {
  return figure === ':' ? 34 : 68;
}
