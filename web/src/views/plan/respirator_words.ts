// SPDX-License-Identifier: Apache-2.0
import { word } from "../../i18n";

/** What must be worn: the engine names the facepiece with blanks, the record with hyphens; cartridges as printed on them. */
export const respiratorWords = ({ facepiece, cartridges = [] }: { facepiece: string; cartridges?: string[] }): string =>
  [word("facepiece", facepiece.replaceAll(" ", "-")), ...cartridges].join(", ");
