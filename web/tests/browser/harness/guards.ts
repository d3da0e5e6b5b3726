// SPDX-License-Identifier: Apache-2.0
// What no page may ever do: ask another origin, break its own content security policy, throw, complain on the console.
import type { BrowserContext, Page } from "playwright-core";

/** The browser's own remark on a status of 400 or more and on a lost network; refusals are part of what is tested. */
const expected = /^Failed to load resource|net::ERR_INTERNET_DISCONNECTED/;

export class Guards {
  readonly faults: string[] = [];

  constructor(private readonly origin: string) {}

  async watch(context: BrowserContext): Promise<void> {
    context.on("request", (request) => this.checkAddress(request.url()));
    context.on("weberror", (fault) => this.faults.push(`thrown: ${fault.error().message}`));
    await context.addInitScript(() => {
      document.addEventListener("securitypolicyviolation", (event) =>
        console.error(`against the policy: ${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}`));
    });
    context.on("page", (page) => this.watchConsole(page));
  }

  private checkAddress(address: string): void {
    const mine = address.startsWith(`${this.origin}/`) || /^(blob|data|about):/.test(address);
    if (!mine) this.faults.push(`asks another origin: ${address}`);
  }

  private watchConsole(page: Page): void {
    page.on("console", (message) => {
      if (["error", "warning"].includes(message.type()) && !expected.test(message.text())) this.faults.push(`${message.type()}: ${message.text()}`);
    });
    page.on("dialog", (dialog) => {
      this.faults.push(`a dialog of the browser: ${dialog.message()}`);
      void dialog.dismiss();
    });
  }
}
