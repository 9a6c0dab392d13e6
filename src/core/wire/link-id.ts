const LINK_ID = /^[A-Za-z0-9_-]{1,32}$/;

/** True for what may stand in a topic as a job, a device or a user: `[A-Za-z0-9_-]{1,32}`. */
export function isLinkId(text: string): boolean {
  return LINK_ID.test(text);
}
