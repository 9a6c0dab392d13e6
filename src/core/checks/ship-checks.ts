import { metresFromFeet } from '../units/quantity.ts';
import { oxygenNeed } from '../place/air-rules.ts';
import { US_RULES } from '../place/rules-of-the-air.ts';
import type { Check } from './check.ts';
import { height, NO_SOURCE } from './check-values.ts';
import type { GoFacts } from './go-facts.ts';

const SPARE_OIL = 0.1;

/** Height, oxygen, and what each ship carries. */
export function shipChecks(facts: GoFacts): Check[] {
  return [...heights(facts), ...tanks(facts)];
}

function heights({ layerHeightMetres, siteElevationMetres, secondsAtHeight, rules = US_RULES }: GoFacts): Check[] {
  const aboveMetres = layerHeightMetres - siteElevationMetres;
  const oxygen = oxygenNeed(layerHeightMetres, secondsAtHeight, rules);
  const { advisedMetres, afterHalfHourMetres, throughoutMetres } = rules.oxygen;
  const limitMetres =
    oxygen === 'required throughout'
      ? throughoutMetres
      : oxygen === 'required'
        ? afterHalfHourMetres
        : (advisedMetres ?? afterHalfHourMetres ?? throughoutMetres);
  return [
    {
      id: 'height',
      title: 'Height above the crowd',
      status: aboveMetres < rules.peopleMetres ? 'stop' : aboveMetres < metresFromFeet(1_500) ? 'caution' : 'ok',
      value: height(aboveMetres),
      limit: height(aboveMetres < rules.peopleMetres ? rules.peopleMetres : metresFromFeet(1_500)),
      limitIs: 'least',
      source: rules.peopleSource,
      advice: 'Not over people below the minimum heights.',
    },
    {
      id: 'oxygen',
      title: 'Oxygen',
      status: oxygen === 'none' ? 'ok' : 'caution',
      value: height(layerHeightMetres),
      limit: limitMetres === null ? null : height(limitMetres),
      limitIs: 'most',
      source: rules.oxygenSource,
      advice:
        oxygen === 'none'
          ? 'Not required or advised by day at this height.'
          : oxygen === 'advised'
            ? 'Advised at this height by day. Whether it is aboard was not checked.'
            : 'Required at this height for this long. Whether it is aboard was not checked.',
    },
  ];
}

function tanks({ budgets, rules = US_RULES }: GoFacts): Check[] {
  return budgets.flatMap((budget): Check[] => {
    const oilTank = budget.oilNeededKilograms + budget.oilLeftKilograms;
    const littleOil = budget.oilLeftKilograms < SPARE_OIL * oilTank;
    const bingoLitres = budget.bingoLitres ?? 0;
    const littleFuel = budget.fuelLeftLitres < Math.max(bingoLitres, budget.fuelReserveLitres * (1 + SPARE_OIL));
    // Even if all other flying came after it: the ship would be sent home before its last stroke.
    const bingoComesFirst = (budget.fuelAfterWritingLitres ?? Infinity) < bingoLitres;
    return [
      {
        id: `oil-${budget.shipIndex}`,
        title: `Smoke oil, ship ${budget.shipIndex + 1}`,
        status: !budget.oilSuffices ? 'stop' : littleOil ? 'caution' : 'ok',
        value: { kind: 'mass', kilograms: budget.oilNeededKilograms },
        limit: { kind: 'mass', kilograms: oilTank },
        limitIs: 'most',
        source: NO_SOURCE,
        advice: 'A redo costs oil too: keep a tenth of the tank.',
      },
      {
        id: `fuel-${budget.shipIndex}`,
        title: `Fuel with reserve, ship ${budget.shipIndex + 1}`,
        // Too little for the writing alone is too little, whatever the rest takes.
        status:
          budget.fuelKnown === false
            ? 'not-checked'
            : !budget.fuelSuffices || bingoComesFirst
              ? 'stop'
              : !budget.wholeFlightCounted
                ? 'not-checked'
                : littleFuel
                  ? 'caution'
                  : 'ok',
        value: budget.fuelKnown === false ? null : { kind: 'volume', litres: budget.fuelLeftLitres },
        limit: budget.fuelKnown === false ? null : { kind: 'volume', litres: Math.max(bingoLitres, budget.fuelReserveLitres) },
        limitIs: 'least',
        source: `${rules.reserveSource}; the job's own reserve`,
        advice:
          budget.fuelKnown === false
            ? 'Fuel carried, burnt and in reserve are not entered.'
            : bingoComesFirst || budget.fuelLeftLitres < bingoLitres
              ? `Bingo fuel ${bingoComesFirst ? 'comes' : 'may come'} before the last stroke: what is left after all flying, against the bingo that is entered.`
              : budget.wholeFlightCounted
                ? 'What is left after climb, transit, writing and return, against the reserve.'
                : 'What the writing alone leaves: enter the minutes of climb, transit and return.',
      },
    ];
  });
}
