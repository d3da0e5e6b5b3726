// SPDX-License-Identifier: Apache-2.0
// The desk and the engine speak to whoever asks them, and some of their hints name commands and options. On a page those
// say what to do on the pages. A unit test holds the keys against the sources.
import { sayings } from "./sayings";

export const pagesEn: Record<string, string> = {
  // Crew, equipment, the firm.
  "give --facepiece half-mask (or another kind), --model and --size": "give the kind of facepiece, its model and its size",
  "fogwright crew show HANDLE lists the ids": "the page of the person shows them",
  "fogwright crew list shows the crew": "the page of the crew shows who there is",
  "write --role technician, --role owner or --role safety-officer; several are allowed": "pick technician, owner or safety officer; several are allowed",
  "take another handle, or change roles with fogwright crew roles": "take another handle, or change the roles on the page of the person",
  "add --role owner; the owner then enrols the others": "give them the role of the owner; the owner then enrols the others",
  "the owner enrols people with fogwright crew enrol": "the owner enrols people under Office, Crew",
  "the safety officer registers it with fogwright cartridge register": "the safety officer registers it under Office",
  "copy them, e.g. --words 'organic vapor/acid gas' --words P100; its colour does not count": "copy them, e.g. organic vapor/acid gas, P100; its colour does not count",
  "write who and the number, e.g. --contact 'Office=555-0100'": "write who and the number, e.g. Office=555-0100",

  // Jobs.
  "fogwright job list shows the jobs": "the list of jobs shows them",
  "fogwright job show lists them": "the page of the job lists them",
  "fogwright job show {} tells what comes next": "the page of {} tells what comes next",
  "write --technician HANDLE": "pick who does it",
  "write the seconds that the valve was open, e.g. --time '42 s'": "write the seconds that the valve was open, e.g. 42 s",
  "measure again, or give what was filled in between with --added": "measure again, or give what was filled in between",
  "what happened otherwise is written down with fogwright job record": "what happened otherwise the office writes down afterwards",
  "meet them with fogwright job check {} ITEM, or go through them with job run {}": "meet them one by one at the gate of {}",
  "write the mix down first: fogwright stock mix": "write the mix down first: Mix a batch",
  "Id of the batch, e.g. B2 (fogwright stock mix writes it down)": "Id of the batch, e.g. B2",
  "write e.g. --zone America/Chicago": "write e.g. America/Chicago",

  // Plans.
  "name a profile, e.g. --label product_profiles_demo/fenmist-rtu.toml": "pick the product",
  "give the floor area and the number of returns, e.g. --area 2400 --returns 3": "give the floor area and the number of returns",
  "give the average height of the conditioned rooms, or the measured air volume with --volume": "give the average height of the conditioned rooms, or the measured air volume",
  "Check the figure. If one system really serves that much, allow it (--large).": "Check the figure. If one system really serves that much, let the office plan it.",
  "Without airing out the model never reaches the occupant limit. Plan a measured fan (--purge-air-changes) or release on readings only.": "Without airing out the model never reaches the occupant limit. Have the office plan a measured fan, or release on readings only.",
  "The modelled clearing time is long. A measured exhaust fan (--purge-air-changes) shortens it; two readings at or below the limit may replace it.": "The modelled clearing time is long. A measured exhaust fan shortens it; two readings at or below the limit may replace it.",
  "Nobody has measured this fogger: the volume is an estimate from the gallon rule (common practice, no source). Run three catch tests and give --flow.": "Nobody has measured this fogger: the volume is an estimate from the gallon rule (common practice, no source). Run three catch tests and choose the fogger below.",

  // Stock and labels.
  "fogwright stock list shows what there is": "the page of the stock shows what there is",
  "fogwright product list shows the labels": "the page of the labels shows them",
  "adopt one with fogwright product adopt": "adopt one under Office, Labels",
  "take {}, or say why not, e.g. --reason '{} is frozen in'": "take {}, or say why not, e.g. {1} is frozen in",
  "give one, e.g. --part C12 or --part 'C12=1.5 fl oz'": "give one, e.g. C12, or C12=1.5 fl oz",
  "e.g. --lead-time 7 --service 1.645": "e.g. 7 days and 1.645",

  "fogwright place list shows the places": "the page of the places shows them",
  "fogwright audit rules lists them": "the list of rules shows them",

  // What to do about a departure.
  "Adopt the label again with fogwright product adopt.": "Adopt the label again under Office, Labels.",
  "Run fogwright book verify and book rebuild, then count the vessel.": "Have the book verified and its documents derived anew, then count the vessel.",
  "Read a thermometer there: fogwright place read.": "Read a thermometer there, and write it down.",
  "Do it or stop it: fogwright job stop.": "Do it or stop it.",
};

export const saidEn = sayings(pagesEn, {}, {});
