import { answerArtwork, type ArtworkRequest } from './artwork-service.worker.ts';

// One file, one worker: it says what can be flown, then in which order, and is ended by whoever started it.
self.onmessage = ({ data }: MessageEvent<ArtworkRequest>) => answerArtwork(data, (answer) => self.postMessage(answer));
