// SPDX-License-Identifier: Apache-2.0
import { Observable } from "../../observable";

export interface Filters {
  severity: string;
  rule: string;
  person: string;
  product: string;
  van: string;
  job: string;
  from: string;
  to: string;
}

export const noFilters: Filters = { severity: "", rule: "", person: "", product: "", van: "", job: "", from: "", to: "" };

/** They outlast a look at an entry. */
export const filters = new Observable<Filters>(noFilters);

/** As the query of an audit takes them. */
export const queryOf = (of: Filters): Partial<Filters> => Object.fromEntries(Object.entries(of).filter(([, value]) => value)) as Partial<Filters>;
