/** The other end of `runJobs`: a process that does one job after another. */
export function serveJobs<Job>(run: (job: Job) => unknown): void {
  process.on('message', async (message: { index: number; job: Job }) => {
    process.send?.({ index: message.index, result: await run(message.job) });
  });
}
