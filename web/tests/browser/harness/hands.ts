// SPDX-License-Identifier: Apache-2.0
// Somebody who works over the API, without a page: brings a job to where a test begins.
import { randomBytes } from "node:crypto";
import type { Answers } from "../steps/gate";
import type { Office } from "./office";
import { password, type Handle } from "./world";

interface ShownJob {
  state: string;
  missing: { requirement: string; stage: string }[];
  plan: { systems: { name: string; returns: { name: string; seconds: number }[] }[] };
}

/** A UUIDv7 in form; its time does not matter here. */
const freshId = () => randomBytes(16).toString("hex").replace(/^(.{8})(.{4})..(..)..(..)(.{12}).*/, "$1-$2-70$3-80$4-$5");

export class Hands {
  private constructor(private readonly office: Office, private readonly headers: Record<string, string>) {}

  static async of(office: Office, handle: Handle): Promise<Hands> {
    const answer = await fetch(`${office.origin}/api/v1/session`, {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ handle, password, device: "the test's hands" }),
    });
    const { csrf_token } = (await answer.json()) as { csrf_token: string };
    const cookie = answer.headers.get("set-cookie")?.split(";")[0] ?? "";
    return new Hands(office, { "Content-Type": "application/json", Cookie: cookie, "X-CSRF-Token": csrf_token });
  }

  async get<T>(path: string): Promise<T> {
    const answer = await fetch(this.office.origin + path, { headers: this.headers });
    if (!answer.ok) throw new Error(`GET ${path}: ${answer.status} ${await answer.text()}`);
    return (await answer.json()) as T;
  }

  async post<T>(path: string, body: unknown = {}): Promise<T> {
    const answer = await fetch(this.office.origin + path, { method: "POST", headers: { ...this.headers, "Idempotency-Key": freshId() }, body: JSON.stringify(body) });
    if (!answer.ok) throw new Error(`POST ${path}: ${answer.status} ${await answer.text()}`);
    return (await answer.json()) as T;
  }

  job(job: string): Promise<ShownJob> {
    return this.get<ShownJob>(`/api/v1/jobs/${job}`);
  }

  /** A planned job of sedge's with two returns. */
  async plan(product: string, area = "2400 sq ft"): Promise<string> {
    const site = { system: [{ area, returns: 2 }], site: { entrances: 2 } };
    const body = { product, technician: "sedge", zone: "America/Chicago", van: "heron", fogger: "gust", site };
    const { entries } = await this.post<{ entries: { body: { job: string } }[] }>("/api/v1/jobs", body);
    return entries[0]?.body.job ?? "";
  }

  async meet(job: string, stages: string[], answers: Record<string, string>): Promise<void> {
    for (const { requirement, stage } of (await this.job(job)).missing)
      if (stages.includes(stage)) await this.post(`/api/v1/jobs/${job}/checks/${requirement}`, { answer: answers[requirement] ?? "yes" });
  }

  /** The gate is met. */
  async open(product: string, answers: Answers): Promise<string> {
    const job = await this.plan(product);
    await this.meet(job, ["before mixing or filling", "before fogging"], byItem(answers));
    return job;
  }

  /** Fog is out, all returns have theirs. */
  async fog(product: string, answers: Answers): Promise<string> {
    const job = await this.open(product, answers);
    await this.post(`/api/v1/jobs/${job}/start`);
    for (const system of (await this.job(job)).plan.systems)
      for (const one of system.returns) {
        this.office.clock.pass(one.seconds * 1000);
        await this.post(`/api/v1/jobs/${job}/returns`, { system: system.name, return: one.name, time: `${one.seconds} s` });
      }
    return job;
  }

  /** The hold runs. */
  async hold(product: string, answers: Answers): Promise<string> {
    const job = await this.fog(product, answers);
    await this.meet(job, ["while fogging"], byItem(answers));
    await this.post(`/api/v1/jobs/${job}/fog-off`, { left: `${answers.left} fl oz` });
    return job;
  }
}

/** The answers under the names of the gate's items. */
export const byItem = (answers: Answers): Record<string, string> => ({
  "product-right": answers.registration,
  "lot-noted": answers.containers.join(" "),
  "product-in-date": answers.lastDay,
  "respirator-facepiece": answers.respirator,
  "cartridge-words": answers.cartridge,
  "cartridge-hours": "45 min",
  "cartridge-hours-added": "40 min",
  "mix-time": answers.batch ?? "",
  "volume-before": `${answers.tank} fl oz`,
  "volume-after": `${answers.left} fl oz`,
  "animals-out": "0",
  "everyone-out": "3",
  "entrances-posted": "2",
  "signs-down": "2",
  "standby-person": "bracken",
  "standby-rescue": "bracken",
});
