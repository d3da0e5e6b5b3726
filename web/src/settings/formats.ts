// SPDX-License-Identifier: Apache-2.0
// Spanish is written as in the United States: 16.6 and 3:11 p. m. A figure that is shown can be typed as it stands, since
// the engine reads a point as decimal and a comma as thousands.
const localeOf = (language: string): string => (language === "es" ? "es-US" : language);

export const numberFormat = (language: string, options: Intl.NumberFormatOptions): Intl.NumberFormat => new Intl.NumberFormat(localeOf(language), options);

/** A line may end between a day and its time, nowhere else. */
export const timeFormat = (language: string, options: Intl.DateTimeFormatOptions): { format: (ms: number) => string } => {
  const made = new Intl.DateTimeFormat(localeOf(language), options);
  return { format: (ms) => unbroken(made.format(ms)).replace(/,\u00a0(?=\d+:)/, ", ") };
};

/** No line ends inside it: a figure without its unit is another figure. */
export const unbroken = (text: string): string => text.replace(/\s/g, "\u00a0");
