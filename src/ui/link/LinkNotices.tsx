import type { VNode } from 'preact';
import type { LinkDesk } from '../../app/link/link-desk.ts';
import { GroundCalls } from './GroundCalls.tsx';
import { SameShip } from './SameShip.tsx';
import { NearShips } from './NearShips.tsx';

export interface LinkNoticesProps {
  readonly link: Pick<LinkDesk, 'groundCalls' | 'lost' | 'nearShips' | 'sameShip'>;
  /** Says that another ship is close. */
  readonly onClose: () => void;
}

/** What the link has to say to a pilot in flight: words to be read, and nothing that acts. */
export function LinkNotices({ link, onClose }: LinkNoticesProps): VNode {
  return (
    <>
      <GroundCalls calls={link.groundCalls} lost={link.lost} />
      <SameShip words={link.sameShip} />
      <NearShips ships={link.nearShips} onClose={onClose} />
    </>
  );
}
