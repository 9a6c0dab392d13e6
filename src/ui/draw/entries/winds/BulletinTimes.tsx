import type { VNode } from 'preact';
import type { WindsAloftBulletin } from '../../../../core/job/winds-aloft.ts';
import { bulletinUse } from '../../../../core/job/winds-aloft-times.ts';
import { clockText } from '../../../words/clock.ts';
import { useDesk } from '../../desk-context.ts';

/** When a bulletin is for, and whether the read time lies in it. */
export function BulletinTimes({ bulletin }: { readonly bulletin: WindsAloftBulletin }): VNode {
  const { editor } = useDesk();
  const readMilliseconds = Date.parse(editor.job.value.readTime);
  const use = Number.isFinite(readMilliseconds) ? bulletinUse(bulletin, readMilliseconds) : null;
  if (use === null) return <p class="small quiet">The bulletin does not say when it is for.</p>;
  const inside = readMilliseconds >= use.fromMilliseconds && readMilliseconds <= use.toMilliseconds;
  const period = `${clockText(use.fromMilliseconds, 'UTC', { day: 'date' })} to ${clockText(use.toMilliseconds, 'UTC')}`;
  return inside ? (
    <p class="small">For use {period}: the read time lies in it.</p>
  ) : (
    <p class="fault">
      For use {period}, and the read time is {editor.job.value.readTime.slice(5, 16).replace('T', ' ')} UTC. Winds of another time may be wrong by any amount.
    </p>
  );
}
