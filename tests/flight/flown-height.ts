/** How a pilot changes height: rates of a loaded display aircraft, invented; common practice, no source. */
export interface HeightHands {
  readonly climbFeetPerMinute: number;
  readonly descentFeetPerMinute: number;
  readonly reactionSeconds: number;
}

const PER_MINUTE = 60;
/** The rate itself builds up over so many seconds. */
const BUILD_UP_SECONDS = 3;

/** A height that follows what the screen or the card asks for, late and no faster than the aircraft can. */
export class FlownHeight {
  heightFeet: number;
  private readonly hands: HeightHands;
  private readonly asked: { readonly atSeconds: number; readonly feet: number }[] = [];
  private wantedFeet: number;
  private rateFeetPerSecond = 0;
  private atSeconds = 0;

  constructor(heightFeet: number, hands: HeightHands) {
    this.heightFeet = heightFeet;
    this.wantedFeet = heightFeet;
    this.hands = hands;
  }

  ask(feet: number): void {
    this.asked.push({ atSeconds: this.atSeconds, feet });
  }

  fly(seconds: number): void {
    this.atSeconds += seconds;
    while (this.asked.length > 0 && this.asked[0]!.atSeconds <= this.atSeconds - this.hands.reactionSeconds) this.wantedFeet = this.asked.shift()!.feet;
    const toGo = this.wantedFeet - this.heightFeet;
    const most = (toGo > 0 ? this.hands.climbFeetPerMinute : this.hands.descentFeetPerMinute) / PER_MINUTE;
    // Levelling off over the last seconds.
    const wantedRate = Math.sign(toGo) * Math.min(most, Math.abs(toGo) / BUILD_UP_SECONDS);
    const step = (most / BUILD_UP_SECONDS) * seconds;
    this.rateFeetPerSecond += Math.max(-step, Math.min(step, wantedRate - this.rateFeetPerSecond));
    this.heightFeet += this.rateFeetPerSecond * seconds;
  }
}
