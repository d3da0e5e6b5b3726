// SPDX-License-Identifier: Apache-2.0
// A photo as evidence: the record holds its SHA-256, the picture stays on this device.
import { openDatabase, type Photo } from "../data/database";
import { clock } from "../data/clock";

export type { Photo };

export async function sha256Hex(bytes: ArrayBuffer): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

export async function keepPhoto(picture: Blob, job: string, item: string): Promise<Photo> {
  const photo = { digest: await sha256Hex(await picture.arrayBuffer()), picture, job, item, taken_ms: clock.now() };
  await (await openDatabase()).put("photos", photo);
  return photo;
}

export async function photosOf(job: string): Promise<Photo[]> {
  return (await openDatabase()).getAllFromIndex("photos", "job", job);
}
