import { announcementSeconds } from '../../../sound/announcement-seconds.ts';
import type { Sound } from '../../../sound/sound.ts';
import type { Cues } from '../../../core/guidance/cues.ts';
import type { OrderSaid, Speaker } from './speaker-types.ts';
import { orderSaid, silentVoice, voiceAfter, voiceValue, withClose } from './voice.ts';

/**
 * Says what the pilot should hear of the cues.
 *
 * @param before the cues that nothing need be said of
 */
export function createSpeaker(sound: Pick<Sound, 'announce'>, before: Cues): Speaker {
  let voice = silentVoice(before);
  return {
    follow(cues, atSeconds) {
      const last = voice;
      voice = voiceAfter(last, cues, atSeconds);
      if (voice.number === last.number || voice.announcement === null) return null;
      sound.announce(voice.announcement.tone, voice.announcement.words);
      const order: OrderSaid | null = orderSaid(last, voice);
      return { spoken: { text: voiceValue(voice), seconds: announcementSeconds(voice.announcement) }, order };
    },
    sayClose() {
      voice = withClose(voice);
    },
  };
}
