// SPDX-License-Identifier: Apache-2.0
import { facepieceWord } from "../../driveway/item_words";

/** What must be worn; cartridges as printed on them. */
export const respiratorWords = ({ facepiece, cartridges = [] }: { facepiece: string; cartridges?: string[] }): string =>
  [facepieceWord(facepiece), ...cartridges].join(", ");
