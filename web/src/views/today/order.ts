// SPDX-License-Identifier: Apache-2.0
import type { JobRow } from "../../api/generated";

/** Fog that is out comes before anything else, whoever let it out. */
const urgency = ["fogging", "holding", "stopped", "released", "cleared", "planned", "closed"];

export function byUrgency(jobs: JobRow[], me: string): JobRow[] {
  const rank = (job: JobRow) => [job.technician === me ? 0 : 1, urgency.indexOf(job.state), job.planned_ms] as const;
  const running = (job: JobRow) => (job.state === "fogging" || job.state === "holding" ? 0 : 1);
  return [...jobs].sort((a, b) => {
    const [x, y] = [rank(a), rank(b)];
    return running(a) - running(b) || x[0] - y[0] || x[1] - y[1] || x[2] - y[2];
  });
}
