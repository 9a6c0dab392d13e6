/** What the screens are called. */
export const SCREEN_TITLES = { jobs: 'Jobs', draw: 'Draw', brief: 'Brief', write: 'Write', ground: 'Ground', debrief: 'Debrief' } as const;
