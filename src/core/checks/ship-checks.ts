import { metresFromFeet } from '../units/quantity.ts';
import { oxygenNeed } from '../place/air-rules.ts';
import type { Check } from './check.ts';
import { height, NO_SOURCE } from './check-values.ts';
import type { GoFacts } from './go-facts.ts';

const SPARE_OIL = 0.1;

/** Height, oxygen, and what each ship carries. */
export function shipChecks(facts: GoFacts): Check[] {
  return [...heights(facts), ...tanks(facts)];
}

function heights({ layerHeightMetres, siteElevationMetres, secondsAtHeight }: GoFacts): Check[] {
  const aboveMetres = layerHeightMetres - siteElevationMetres;
  const oxygen = oxygenNeed(layerHeightMetres, secondsAtHeight);
  const limitFeet = oxygen === 'required throughout' ? 14_000 : oxygen === 'required' ? 12_500 : 10_000;
  return [
    {
      id: 'height',
      title: 'Height above the crowd',
      status: aboveMetres < metresFromFeet(1_000) ? 'stop' : aboveMetres < metresFromFeet(1_500) ? 'caution' : 'ok',
      value: height(aboveMetres),
      limit: height(metresFromFeet(aboveMetres < metresFromFeet(1_000) ? 1_000 : 1_500)),
      source: '14 CFR 91.119, 91.303',
      advice: 'Not over people below the minimum heights.',
    },
    {
      id: 'oxygen',
      title: 'Oxygen',
      status: oxygen === 'none' ? 'ok' : 'caution',
      value: height(layerHeightMetres),
      limit: height(metresFromFeet(limitFeet)),
      source: '14 CFR 91.211(a); AIM 8-1-2',
      advice:
        oxygen === 'none'
          ? 'Not required or advised by day at this height.'
          : oxygen === 'advised'
            ? 'Advised above 10,000 ft by day. Whether it is aboard was not checked.'
            : 'Required at this height for this long. Whether it is aboard was not checked.',
    },
  ];
}

function tanks({ budgets }: GoFacts): Check[] {
  return budgets.flatMap((budget): Check[] => {
    const oilTank = budget.oilNeededKilograms + budget.oilLeftKilograms;
    const littleOil = budget.oilLeftKilograms < SPARE_OIL * oilTank;
    const littleFuel = budget.fuelLeftLitres < budget.fuelReserveLitres * (1 + SPARE_OIL);
    return [
      {
        id: `oil-${budget.shipIndex}`,
        title: `Smoke oil, ship ${budget.shipIndex + 1}`,
        status: !budget.oilSuffices ? 'stop' : littleOil ? 'caution' : 'ok',
        value: { kind: 'mass', kilograms: budget.oilNeededKilograms },
        limit: { kind: 'mass', kilograms: oilTank },
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
            : !budget.fuelSuffices
              ? 'stop'
              : !budget.wholeFlightCounted
                ? 'not-checked'
                : littleFuel
                  ? 'caution'
                  : 'ok',
        value: budget.fuelKnown === false ? null : { kind: 'volume', litres: budget.fuelLeftLitres },
        limit: budget.fuelKnown === false ? null : { kind: 'volume', litres: budget.fuelReserveLitres },
        source: "14 CFR 91.151: 30 minutes by day, 45 by night; the job's own reserve",
        advice:
          budget.fuelKnown === false
            ? 'Fuel carried, burnt and in reserve are not entered.'
            : budget.wholeFlightCounted
              ? 'What is left after climb, transit, writing and return, against the reserve.'
              : 'What the writing alone leaves: enter the minutes of climb, transit and return.',
      },
    ];
  });
}
