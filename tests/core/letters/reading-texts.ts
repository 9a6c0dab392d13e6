import wordsOpen from '../../reference/words-open.json' with { type: 'json' };

/** Ordinary words in which each letter stands first, inside and last; our own choice. */
const MORE_WORDS =
  'ALWAYS AMAZE ARENA APRIL BANANA ABOVE BEACH BUBBLE CLUB CABIN COUCH MAGIC DANCE DREAM WORLD CLOUD EAGLE EVERY SMILE ' +
  'FAMILY FIFTY CLIFF SURF GIANT GENTLE SINGING BIG HAPPY HEART HELLO HIGH ISLAND IDEA TAXI JAZZ ENJOY MAJOR KITE KICK ' +
  'BOOK MAKE LAKE LITTLE BALL MARRY MOMENT TEAM SUMMER NIGHT NANCY MOON OCEAN OTTO PAPA SHIP POPPY QUEEN EQUAL SQUID ' +
  'RIVER ROAR HONOR SUNSET SISTER TOTAL TIGER UNDER ULTRA MENU VALLEY VELVET SAVE LOVE WATER SNOW WINDOW WOW EXTRA ' +
  'RELAX XMAS YELLOW YOUNG MAYBE ZERO PLAZA ME VOTE THANK YOU';

/** Words of capitals: those of tests/reference/words-open.json, then our own. */
export const WORDS: readonly string[] = [...new Set([...wordsOpen.words, ...MORE_WORDS.split(' ')])];

/** Numbers without a meaning that would help the reader. */
export const NUMBERS: readonly string[] = '2026 1984 375 1066 90210 4711 8535 62947 2470 1903 5338 7641 2150 3692 4408 5917'.split(' ');

/** Texts with signs. */
export const SIGNED_TEXTS: readonly string[] = [
  'HELLO!',
  'HI!',
  'WHY?',
  'WHO?',
  'MR. FOX',
  'ST. ANNA',
  'YES, WE CAN',
  "IT'S",
  "LET'S GO",
  'X-RAY',
  'CO-OP',
  'ROCK & ROLL',
  'SALT & PEPPER',
  'A+B',
  '5+3',
  '#47',
  'TEAM #3',
];
