/** Milliseconds that this process has worked so far; what else a shared machine does meanwhile does not count. */
export function processorMilliseconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
