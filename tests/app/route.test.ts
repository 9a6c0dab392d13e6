import { fc } from '../property.ts';
import { describe, expect, it } from 'vitest';
import { hashFromRoute, JOB_SCREENS, type Route, routeFromHash } from '../../src/app/route.ts';

describe('routes', () => {
  it('come back from their addresses', () => {
    const routes: fc.Arbitrary<Route> = fc.oneof(
      fc.constant({ screen: 'jobs' } as const),
      fc.record({ screen: fc.constantFrom(...JOB_SCREENS), jobId: fc.stringMatching(/^[A-Za-z0-9_-]{1,32}$/) }, { noNullPrototype: true }),
    );
    fc.assert(
      fc.property(
        routes,
        (route) => routeFromHash(hashFromRoute(route)).screen === route.screen && hashFromRoute(routeFromHash(hashFromRoute(route))) === hashFromRoute(route),
      ),
    );
  });

  it.each(['', '#', '#/', '#/jobs', '#/plan', '#/draw/', '#/draw/../x', '#/draw/<b>', '#/nowhere/a', '#/constructor/a', `#/write/${'x'.repeat(33)}`])(
    'lead to Jobs from %j',
    (hash) => {
      expect(routeFromHash(hash)).toEqual({ screen: 'jobs' });
    },
  );

  it.each([
    ['#/plan/lake-ondine', 'draw'],
    ['#/fly/lake-ondine', 'write'],
  ])('lead on from the address of before: %s', (hash, screen) => {
    expect(routeFromHash(hash)).toEqual({ screen, jobId: 'lake-ondine' });
  });

  it('read the job', () => {
    expect(routeFromHash('#/write/lake-ondine')).toEqual({ screen: 'write', jobId: 'lake-ondine' });
  });
});
