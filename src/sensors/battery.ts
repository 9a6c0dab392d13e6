/** What the device says of its battery. */
export interface BatteryState {
  /** 0 to 1. */
  readonly charge: number;
  readonly charging: boolean;
}

interface BatteryManagerLike extends EventTarget {
  readonly level: number;
  readonly charging: boolean;
}

/** Follows the battery where the browser tells of it; nothing is told elsewhere. The returned function ends it. */
export function watchBattery(onState: (state: BatteryState) => void): () => void {
  const asking = (navigator as Navigator & { getBattery?: () => Promise<BatteryManagerLike> }).getBattery?.();
  let ended = false;
  let end = (): void => {};
  asking?.then(
    (battery) => {
      if (ended) return;
      const tell = (): void => onState({ charge: battery.level, charging: battery.charging });
      battery.addEventListener('levelchange', tell);
      battery.addEventListener('chargingchange', tell);
      tell();
      end = () => {
        battery.removeEventListener('levelchange', tell);
        battery.removeEventListener('chargingchange', tell);
      };
    },
    () => {},
  );
  return () => {
    ended = true;
    end();
  };
}
