import { followGivenFiles } from './given-files.ts';
import { renewStorageLog } from './storage-log.ts';

/** What each start needs, and its first cue does not. Files handed to the app by the system go to `take`. */
export function afterStart(take: Parameters<typeof followGivenFiles>[0]): void {
  void renewStorageLog();
  followGivenFiles(take);
}
