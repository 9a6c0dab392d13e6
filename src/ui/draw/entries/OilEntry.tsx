import type { VNode } from 'preact';
import { editName, withJobNumber } from '../../../app/draw/job-fields.ts';
import { KeptChoice } from '../../fields/KeptChoice.tsx';
import { NumberCell } from '../../fields/NumberCell.tsx';
import { TextField } from '../../fields/TextField.tsx';
import { useDesk } from '../desk-context.ts';
import { JobNumber } from './JobNumber.tsx';
import { useFieldUnit, useUnitText } from '../../fields/units-context.ts';

/** The smoke oil: its kind, how dense it is, and then also by volume what is carried by mass. */
export function OilEntry({ shipIndex }: { readonly shipIndex: number }): VNode | null {
  const { editor, kept } = useDesk();
  const units = useUnitText();
  const { label } = useFieldUnit('gal');
  const ship = editor.job.value.ships[shipIndex];
  if (ship === undefined) return null;
  const { oilKind, oilPoundsPerGallon, smokeOilPounds, smokeTankGallons } = ship;
  const set = (part: Partial<typeof ship>): void =>
    editor.edit(`${ship.name}, smoke oil`, (job) => ({ ...job, ships: job.ships.map((each, index) => (index === shipIndex ? { ...each, ...part } : each)) }));
  const over = oilPoundsPerGallon !== null && smokeTankGallons !== null && smokeOilPounds > oilPoundsPerGallon * smokeTankGallons;
  return (
    <div class="oil-entry">
      <KeptChoice
        label="Kept oils"
        items={kept.kept.value.oils.map(({ id, kind }) => ({ id, name: kind }))}
        onTake={(id) => {
          const oil = kept.kept.value.oils.find((each) => each.id === id);
          if (oil !== undefined) set({ oilKind: oil.kind, oilPoundsPerGallon: oil.poundsPerGallon });
        }}
        onForget={(id) => void kept.forget('oils', id)}
        onKeep={oilKind === '' ? null : () => void kept.keepOil({ kind: oilKind, poundsPerGallon: oilPoundsPerGallon })}
        keepWord="Keep this oil"
      />
      <div class="fields">
        <TextField label="Kind of smoke oil" value={oilKind} onInput={(kind) => set({ oilKind: kind })} />
        <JobNumber path="ships.oilPoundsPerGallon" index={shipIndex} />
        <JobNumber path="ships.smokeTankGallons" index={shipIndex} />
        {oilPoundsPerGallon !== null && (
          <div class="field">
            <span aria-hidden="true">{label('Smoke oil carried, gal')}</span>
            <NumberCell
              label={label('Smoke oil carried, US gallons')}
              value={Math.round((100 * smokeOilPounds) / oilPoundsPerGallon) / 100}
              unit="gal"
              limits={[0, Math.floor(5000 / oilPoundsPerGallon)]}
              onChange={(gallons) =>
                editor.edit(editName(editor.job.peek(), 'ships.smokeOilPounds', shipIndex), (job) =>
                  withJobNumber(job, 'ships.smokeOilPounds', Math.round(10 * gallons * oilPoundsPerGallon) / 10, shipIndex),
                )
              }
            />
          </div>
        )}
      </div>
      {over && (
        <p class="fault" role="alert">
          The tank holds {units.mass.own(oilPoundsPerGallon * smokeTankGallons)} of it; {units.mass.own(smokeOilPounds)} are entered.
        </p>
      )}
    </div>
  );
}
