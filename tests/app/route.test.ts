import fc from 'fast-check';
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

  it.each(['', '#', '#/', '#/jobs', '#/plan', '#/plan/', '#/plan/../x', '#/plan/<b>', '#/nowhere/a', '#/constructor/a', `#/fly/${'x'.repeat(33)}`])(
    'lead to Jobs from %j',
    (hash) => {
      expect(routeFromHash(hash)).toEqual({ screen: 'jobs' });
    },
  );

  it('read the job', () => {
    expect(routeFromHash('#/fly/lake-ondine')).toEqual({ screen: 'fly', jobId: 'lake-ondine' });
  });
});
