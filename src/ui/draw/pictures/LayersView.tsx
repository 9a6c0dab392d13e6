import type { VNode } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { jobText } from '../../../core/job/job-text.ts';
import { calibratedSmoke } from '../../../core/sky/smoke-calibration.ts';
import { type LayerChoice, type LayerRequest, rankLayers, USUAL_LAYERS_METRES } from '../../../core/place/layer-choice.ts';
import { feetFromMetres, metresFromFeet } from '../../../core/units/quantity.ts';
import { ConditionsEntry } from '../entries/winds/ConditionsEntry.tsx';
import type { PlannedJob } from '../../../core/plan/planned-job.ts';
import { useDesk } from '../desk-context.ts';
import { LayerRow } from './LayerRow.tsx';
import { useUnitText } from '../../fields/units-context.ts';
import type { UnitText } from '../../../core/text/unit-text.ts';

/** Every usual layer with its wind, how long it reads from there, from how far, and what speaks against it. */
export function LayersView(): VNode | null {
  const { settled } = useDesk();
  const now = settled.value;
  return now === null ? null : <Layers planned={now} />;
}

const STANDINGS = ['usable', 'poor', 'unusable'];
const REST_MILLISECONDS = 200;
/** Climb to the layer and back down; an assumption for the oxygen rule's half hour. */
const CLIMB_SECONDS = 900;

function Layers({ planned }: { readonly planned: PlannedJob }): VNode {
  const { editor, calibration } = useDesk();
  const units = useUnitText();
  const { plan, job, air, readSeconds } = planned;
  const request = useMemo((): Omit<LayerRequest, 'heightsMetres'> => {
    return {
      plan,
      siteElevationMetres: air.site.elevationMetres,
      viewElevationRadians: jobText(job).viewElevationRadians,
      readSeconds,
      profile: air.profile,
      clouds: air.clouds,
      visibilityMetres: air.visibilityMetres,
      smoke: calibratedSmoke(calibration.value),
      secondsAtHeight: plan.durationSeconds + CLIMB_SECONDS,
    };
  }, [plan, air, calibration.value]);
  const layers = useLayers(request);
  const isTaken = ({ heightMetres }: LayerChoice): boolean => Math.abs(heightMetres - metresFromFeet(job.layer.altitudeFeet)) < 1;
  // What cannot be flown is gathered; the layer in use is always seen.
  const isShown = (layer: LayerChoice): boolean => layer.standing !== 'unusable' || isTaken(layer);
  const hidden = layers.filter((layer) => !isShown(layer));
  const rows = (these: readonly LayerChoice[]): VNode[] =>
    these.map((layer) => (
      <LayerRow
        key={layer.heightMetres}
        layer={layer}
        taken={isTaken(layer)}
        onTake={() =>
          editor.edit('layer', (before) => ({ ...before, layer: { ...before.layer, altitudeFeet: Math.round(feetFromMetres(layer.heightMetres)) } }))
        }
      />
    ));
  return (
    <div class="layers-view">
      <ConditionsEntry />
      <p class="small">Best first: usable layers before poor ones, then by minutes of reading less what speaks against them. Touch a height to take it.</p>
      <div class="scrolls" role="region" tabIndex={0} aria-label="Layers, best first">
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">Layer</th>
              <th scope="col">Wind</th>
              <th scope="col">Reads, min</th>
              <th scope="col">Seen from</th>
            </tr>
          </thead>
          {rows(layers.filter(isShown))}
        </table>
      </div>
      {hidden.length > 0 && (
        <details class="layers-unusable">
          <summary>
            {hidden.length} {hidden.length === 1 ? 'height is' : 'heights are'} not usable: {heightsText(hidden, units)}
          </summary>
          <div class="scrolls" role="region" tabIndex={0} aria-label="Layers that are not usable">
            <table class="figures">{rows(hidden)}</table>
          </div>
        </details>
      )}
      {layers.length < USUAL_LAYERS_METRES.length && <p class="small quiet">Working out the layers</p>}
    </div>
  );
}

/** Heights from the lowest up: `4,500, 6,500 ft`. */
function heightsText(layers: readonly LayerChoice[], { height }: UnitText): string {
  const metres = layers.map(({ heightMetres }) => heightMetres).sort((one, other) => one - other);
  return `${metres.map((each) => height.number(each)).join(', ')} ${height.unit}`;
}

/** The ranking, worked out a layer at a time so that the page stays free. */
function useLayers(request: Omit<LayerRequest, 'heightsMetres'>): readonly LayerChoice[] {
  const [layers, setLayers] = useState<readonly LayerChoice[]>([]);
  useEffect(() => {
    const found: LayerChoice[] = [];
    let timer = setTimeout(function next() {
      const heightMetres = USUAL_LAYERS_METRES[found.length];
      if (heightMetres === undefined) return;
      found.push(...rankLayers({ ...request, heightsMetres: [heightMetres] }));
      // Shown by fours: each showing costs more than a layer does.
      if (found.length % 4 === 0 || found.length === USUAL_LAYERS_METRES.length) {
        setLayers(
          found.toSorted(
            (one, other) =>
              STANDINGS.indexOf(one.standing) - STANDINGS.indexOf(other.standing) || other.score - one.score || one.heightMetres - other.heightMetres,
          ),
        );
      }
      timer = setTimeout(next);
    }, REST_MILLISECONDS);
    return () => clearTimeout(timer);
  }, [request]);
  return layers;
}
