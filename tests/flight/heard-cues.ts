import { orderSaid, silentVoice, voiceAfter, voiceValue } from '../../src/app/flight/voice/voice.ts';
import type { Cues } from '../../src/core/guidance/cues.ts';
import { announcementSeconds } from '../../src/sound/announcement-seconds.ts';
import type { EarPilot } from './ear-pilot.ts';

/** What the app's voice makes of the cues of one flight, heard by a pilot as it sounds. */
export class HeardCues {
  /** The order that this moment's announcement began with; null where none did. */
  said: ReturnType<typeof orderSaid> = null;
  private voice: ReturnType<typeof silentVoice> | null = null;
  private readonly ear: EarPilot;

  constructor(ear: EarPilot) {
    this.ear = ear;
  }

  sound(cues: Cues, atSeconds: number): void {
    const before = this.voice ?? silentVoice(cues);
    const voice = voiceAfter(before, cues, atSeconds);
    this.voice = voice;
    this.said = voice.number === before.number ? null : orderSaid(before, voice);
    this.ear.hear(voiceValue(voice), voice.announcement === null ? 0 : announcementSeconds(voice.announcement), atSeconds);
  }
}
