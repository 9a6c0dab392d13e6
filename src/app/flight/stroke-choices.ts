import { effect, type ReadonlySignal, signal } from '@preact/signals';
import { restOrdered, restProblem } from '../../core/guidance/rest-problem.ts';
import type { AirPath } from '../../core/paths/air-path.ts';
import type { RestOrder } from '../../core/order/rest-of-flight.ts';
import { type RestClient, startRestClient } from '../../workers/rest-client.ts';
import type { Flying } from './fly-flight.ts';

/** A stroke that may come next, and what that makes of all that is left. */
export interface StrokeChoice {
  readonly strokeIndex: number;
  readonly letterIndex: number;
  readonly character: string;
  /** As it would be flown. */
  readonly path: AirPath;
  /** Until all is written, against the order that stands; negative where the choice is the quicker one. */
  readonly moreSeconds: number;
  readonly order: RestOrder;
}

/** What the pilot can choose from, while that is asked for. */
export interface StrokeChoices {
  /** In the order that stands, the next stroke first; null until they are known, and where nothing may be chosen. */
  readonly choices: ReadonlySignal<readonly StrokeChoice[] | null>;
  /** Whether a stroke may be chosen now: never under smoke nor on a run-in. */
  readonly mayChoose: ReadonlySignal<boolean>;
  /** Takes a choice; nothing where it cannot be had any more. */
  choose(choice: StrokeChoice): void;
  end(): void;
}

/** As the ship flies on, what the choices cost changes: asked again so long after each answer. */
const ASKED_EVERY_SECONDS = 1;

/** Has the orders that begin with each of the strokes that are left found off the page, again and again until it is ended. */
export function strokeChoices(flying: Pick<Flying, 'cues' | 'state' | 'receive'>, start: () => RestClient = startRestClient): StrokeChoices {
  const client = start();
  const choices = signal<readonly StrokeChoice[] | null>(null);
  const mayChoose = signal(true);
  let asked = '';
  let askAgainAtSeconds = -Infinity;
  let waiting = false;
  const leftNow = (): string =>
    restProblem(flying.state())
      ?.strokes.map(({ strokeIndex }) => strokeIndex)
      .join() ?? '';
  const endEffect = effect(() => {
    void flying.cues.value;
    const state = flying.state();
    const problem = restProblem(state);
    const left = leftNow();
    mayChoose.value = problem !== null;
    // What belongs to another rest is no choice any more.
    if (left !== asked) choices.value = null;
    if (problem === null || state.phase === 'idle' || waiting || (left === asked && state.flight.atSeconds < askAgainAtSeconds)) return;
    asked = left;
    askAgainAtSeconds = state.flight.atSeconds + ASKED_EVERY_SECONDS;
    waiting = true;
    const { strokes } = state.flight.setup;
    client.byFirst(problem).then(
      (orders) => {
        waiting = false;
        if (leftNow() !== left) return;
        choices.value = orders.flatMap((order) => {
          const [first] = order.strokes;
          const stroke = first === undefined ? undefined : strokes[first.strokeIndex];
          if (first === undefined || stroke === undefined) return [];
          const { letterIndex, character } = stroke;
          return [{ strokeIndex: first.strokeIndex, letterIndex, character, path: first.path, moreSeconds: -order.savedSeconds, order }];
        });
      },
      // Without the worker there is no choice, and the touches come back.
      () => (mayChoose.value = false),
    );
  });
  return {
    choices,
    mayChoose,
    choose: ({ order }) => flying.receive(restOrdered(order, true)),
    end() {
      endEffect();
      client.dispose();
    },
  };
}
