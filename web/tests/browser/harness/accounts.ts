// SPDX-License-Identifier: Apache-2.0
// Chooses everybody's password over the API, as an owner's invitations let them.
import type { Office } from "./office";
import { crew, password } from "./world";

async function post(office: Office, path: string, body: unknown, headers: Record<string, string> = {}): Promise<Response> {
  const answer = await fetch(office.origin + path, { method: "POST", headers: { "Content-Type": "application/json", ...headers }, body: JSON.stringify(body) });
  if (!answer.ok) throw new Error(`POST ${path}: ${answer.status} ${await answer.text()}`);
  return answer;
}

export async function choosePasswords(office: Office): Promise<void> {
  const token = (await office.invitation()).split("#")[1];
  await post(office, "/api/v1/password", { token, handle: "marrow", password });
  const signedIn = await post(office, "/api/v1/session", { handle: "marrow", password });
  const cookie = signedIn.headers.get("set-cookie")?.split(";")[0] ?? "";
  const { csrf_token } = (await signedIn.json()) as { csrf_token: string };
  for (const handle of Object.keys(crew).filter((one) => one !== "marrow")) {
    const invited = await post(office, `/api/v1/crew/${handle}/invitation`, { password }, { Cookie: cookie, "X-CSRF-Token": csrf_token });
    await post(office, "/api/v1/password", { token: ((await invited.json()) as { token: string }).token, handle, password });
  }
}
