import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import { UNIT_KINDS, type UnitKind } from '../../../core/units/unit-kinds.ts';
import { Fold } from '../../fields/Fold.tsx';
import { UnitsContext } from '../../fields/units-context.ts';

const NAMES: Readonly<Record<UnitKind, string>> = {
  height: 'Heights and short lengths',
  speed: 'Speeds',
  distance: 'Distances',
  mass: 'Weights',
  volume: 'Volumes',
  temperature: 'Temperatures',
  pressure: 'Pressures',
};

/** The unit of every kind, chosen once for all screens and sheets; winds and heights asked for in flight stay in knots and feet. */
export function UnitsEntry(): VNode | null {
  const shelf = useContext(UnitsContext);
  if (shelf === null) return null;
  const chosen = shelf.units.value;
  return (
    <Fold title="Units" said={Object.values(chosen).join(', ')}>
      <div class="fields">
        {(Object.keys(UNIT_KINDS) as UnitKind[]).map((kind) => (
          <label class="field" key={kind}>
            <span>{NAMES[kind]}</span>
            <select value={chosen[kind]} onChange={(event) => shelf.choose(kind, event.currentTarget.value)}>
              {Object.keys(UNIT_KINDS[kind]).map((unit) => (
                <option key={unit} value={unit}>
                  {unit}
                </option>
              ))}
            </select>
          </label>
        ))}
      </div>
      <p class="small">
        On all screens and sheets. In flight, Write keeps winds in knots and the heights it asks for in feet. With nautical miles chosen, what a crowd is told
        and visibility stay in statute miles. The job file stays as it is.
      </p>
    </Fold>
  );
}
