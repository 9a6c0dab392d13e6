/**
 * Why there is no Mosquitto to test with, as `npm test` found when it could not install it; null where there is one.
 * In continuous integration nothing is left out.
 */
export function mosquittoMissing(): string | null {
  return process.env['QUILLWIND_NO_MOSQUITTO'] === undefined ? null : 'Mosquitto is not installed here and could not be: see the beginning of this run.';
}
