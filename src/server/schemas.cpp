// SPDX-License-Identifier: Apache-2.0
#include "server/openapi.hpp"

namespace fogwright::server {
namespace {

// What the pages rely on. Members that are not named here are described in docs/entries.md and
// docs/plan-json.md.
constexpr auto schemas = R"json({
  "Any": {"type": "object"},
  "Problem": {"type": "object", "required": ["type", "title", "status", "code", "detail"], "properties": {
    "type": {"type": "string"}, "title": {"type": "string"}, "status": {"type": "integer"},
    "code": {"type": "string"}, "detail": {"type": "string"}, "where": {"type": "string"}, "hint": {"type": "string"},
    "faults": {"type": "array", "items": {"type": "object"}}, "entries": {"type": "array", "items": {"type": "object"}}}},
  "Health": {"type": "object", "required": ["status", "entries"], "properties": {
    "status": {"type": "string"}, "entries": {"type": "integer"}}},
  "Handle": {"type": "object", "required": ["handle"], "properties": {"handle": {"type": "string"}}},
  "SignedIn": {"type": "object", "required": ["handle", "roles", "device", "session", "csrf_token"], "properties": {
    "handle": {"type": "string"}, "roles": {"type": "array", "items": {"type": "string"}}, "device": {"type": "string"},
    "session": {"type": "string"}, "csrf_token": {"type": "string"}}},
  "Ended": {"type": "object", "required": ["ended"], "properties": {"ended": {"type": "string"}}},
  "Sessions": {"type": "object", "required": ["items"], "properties": {"items": {"type": "array", "items": {
    "type": "object", "required": ["session", "handle", "device", "created_ms", "seen_ms"], "properties": {
    "session": {"type": "string"}, "handle": {"type": "string"}, "device": {"type": "string"},
    "created_ms": {"type": "integer"}, "seen_ms": {"type": "integer"}}}}}},
  "Invitation": {"type": "object", "required": ["handle", "token", "until_ms", "link", "qr"], "properties": {
    "handle": {"type": "string"}, "token": {"type": "string"}, "until_ms": {"type": "integer"},
    "link": {"type": "string"}, "qr": {"type": "array", "items": {"type": "string"}}}},
  "Written": {"type": "object", "required": ["entries", "departures", "already_there"], "properties": {
    "already_there": {"type": "boolean"}, "departures": {"type": "array", "items": {"$ref": "#/components/schemas/Departure"}},
    "entries": {"type": "array", "items": {"type": "object", "required": ["seq", "id", "kind", "body"], "properties": {
      "seq": {"type": "integer"}, "id": {"type": "string"}, "kind": {"type": "string"}, "body": {"type": "object"}}}}}},
  "Departure": {"type": "object", "required": ["seq", "rule", "severity", "what"], "properties": {
    "seq": {"type": "integer"}, "rule": {"type": "string"}, "severity": {"type": "string"}, "what": {"type": "string"},
    "job": {"type": "string"}, "person": {"type": "string"}, "departure": {"type": "string"}}},
  "Departures": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"},
    "items": {"type": "array", "items": {"$ref": "#/components/schemas/Departure"}}}},
  "Person": {"type": "object", "required": ["handle", "active", "roles", "credentials"], "properties": {
    "handle": {"type": "string"}, "active": {"type": "boolean"}, "roles": {"type": "array", "items": {"type": "string"}},
    "credentials": {"type": "array", "items": {"type": "object"}}}},
  "People": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"},
    "items": {"type": "array", "items": {"$ref": "#/components/schemas/Person"}}}},
  "Fogger": {"type": "object", "required": ["fogger", "active", "tests"], "properties": {
    "fogger": {"type": "string"}, "active": {"type": "boolean"}, "tank_ul": {"type": "integer"},
    "empty_mg": {"type": "integer"}, "tests": {"type": "array", "items": {"type": "object"}}}},
  "Foggers": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"},
    "items": {"type": "array", "items": {"$ref": "#/components/schemas/Fogger"}}}},
  "Cartridges": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"},
    "items": {"type": "array", "items": {"type": "object", "required": ["cartridge", "used_minutes", "schedule_minutes"],
    "properties": {"cartridge": {"type": "string"}, "used_minutes": {"type": "integer"}, "schedule_minutes": {"type": "integer"}}}}}},
  "Products": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"},
    "items": {"type": "array", "items": {"type": "object", "required": ["product", "name", "registration", "current", "versions"],
    "properties": {"product": {"type": "string"}, "name": {"type": "string"}, "registration": {"type": "string"},
      "current": {"type": "string"}, "versions": {"type": "array", "items": {"type": "object"}}}}}}},
  "LabelText": {"type": "object", "required": ["product", "text", "name", "signal_word", "precautions", "first_aid"],
    "properties": {"product": {"type": "string"}, "text": {"type": "string"}, "name": {"type": "string"},
    "registration": {"type": "string"}, "signal_word": {"type": "string"},
    "precautions": {"type": "array", "items": {"type": "string"}},
    "first_aid": {"type": "array", "items": {"type": "string"}},
    "disposal": {"type": "array", "items": {"type": "string"}}}},
  "Mixing": {"type": "object", "required": ["label", "tables", "table", "makes_ml", "batches", "lines", "gear", "respirator", "cautions"],
    "properties": {"label": {"type": "string"}, "tables": {"type": "array", "items": {"type": "string"}}, "table": {"type": "string"},
    "makes_ml": {"type": "number"}, "batches": {"type": "integer"}, "lines": {"type": "array", "items": {"type": "object",
      "required": ["ingredient", "from_container", "amount_ml", "amount", "instruction"], "properties": {"ingredient": {"type": "string"},
      "from_container": {"type": "boolean", "description": "not water"}, "amount_ml": {"type": "number"}, "amount": {"type": "object", "required": ["us", "metric"],
        "properties": {"us": {"type": "string"}, "metric": {"type": "string"}}}, "instruction": {"type": "string"},
      "wait_minutes": {"type": "integer"}}}},
    "gear": {"type": "array", "items": {"type": "string"}}, "respirator": {"type": "boolean", "description": "worn for mixing"},
    "cautions": {"type": "array", "items": {"type": "string"}},
    "active_fraction": {"type": "number"}, "life_minutes": {"type": "integer"}}},
  "Places": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"},
    "items": {"type": "array", "items": {"type": "object", "required": ["place", "type"],
    "properties": {"place": {"type": "string"}, "type": {"type": "string"}}}}}},
  "StockLines": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"}, "items": {"type": "array", "items": {
    "type": "object", "required": ["item", "name", "on_hand_ul", "usable_ul", "order_ul"], "properties": {
    "item": {"type": "string"}, "name": {"type": "string"}, "on_hand_ul": {"type": "integer"},
    "usable_ul": {"type": "integer"}, "order_ul": {"type": "integer"}}}}}},
  "Vessel": {"type": "object", "required": ["id", "item", "lot", "place", "batch", "size_ul", "remaining_ul", "usable"],
    "properties": {"id": {"type": "string"}, "item": {"type": "string"}, "lot": {"type": "string"},
    "earlier_lots": {"type": "array", "items": {"type": "string"}, "description": "that it was entered under before they were put right"},
    "place": {"type": "string"}, "batch": {"type": "boolean"}, "size_ul": {"type": "integer"},
    "remaining_ul": {"type": "integer"}, "usable": {"type": "boolean"}, "movements": {"type": "array", "items": {"type": "object"}}}},
  "Vessels": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"},
    "items": {"type": "array", "items": {"$ref": "#/components/schemas/Vessel"}}}},
  "JobRow": {"type": "object", "required": ["job", "state", "product", "technician", "planned_ms"], "properties": {
    "job": {"type": "string"}, "state": {"type": "string"}, "product": {"type": "string"},
    "technician": {"type": "string"}, "planned_ms": {"type": "integer"}, "scheduled_ms": {"type": "integer"},
    "zone": {"type": "string"}, "van": {"type": "string"}}},
  "JobRows": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"},
    "items": {"type": "array", "items": {"$ref": "#/components/schemas/JobRow"}}}},
  "JobCosts": {"type": "object", "required": ["items"], "properties": {"next": {"type": "string"},
    "items": {"type": "array", "items": {"type": "object",
    "required": ["job", "state", "product", "technician", "planned_ms", "cents", "complete", "draws"], "properties": {
      "job": {"type": "string"}, "state": {"type": "string"}, "product": {"type": "string"},
      "technician": {"type": "string"}, "planned_ms": {"type": "integer"}, "used_ul": {"type": "integer"},
      "cents": {"type": "integer"}, "complete": {"type": "boolean"}, "draws": {"type": "array", "items": {"type": "object"}}}}}}},
  "Job": {"type": "object", "required": ["job", "state", "product", "technician", "plan", "items", "missing", "met",
    "returns"],
    "properties": {"job": {"type": "string"}, "state": {"type": "string"}, "product": {"type": "string"},
    "technician": {"type": "string"}, "zone": {"type": "string"}, "label_digest": {"type": "string"},
    "plan": {"type": "object"}, "met": {"type": "object"},
    "items": {"type": "array", "items": {"type": "object", "required": ["item", "words", "question"], "properties": {
      "item": {"type": "string"}, "words": {"type": "string"}, "question": {"type": "string"},
      "value": {"type": "string", "description": "what the job at hand puts into the words"}, "why": {"type": "string"}, "basis": {"type": "string"}, "citation": {"type": "string"},
      "evidence": {"type": "string"}, "lapse": {"type": "string"}, "stage": {"type": "string"},
      "by_facts": {"type": "boolean"}}}},
    "returns": {"type": "array", "items": {"type": "object"}}, "hold": {"type": "object",
      "required": ["elapsed_ms", "floor_ms", "total_ms", "may_release", "words"], "properties": {
      "elapsed_ms": {"type": "integer"}, "floor_ms": {"type": "integer"}, "total_ms": {"type": "integer"},
      "readings_needed": {"type": "boolean"}, "may_release": {"type": "boolean"}, "words": {"type": "string"}}},
    "missing": {"type": "array", "items": {"type": "object", "required": ["requirement", "why", "stage"],
      "properties": {"requirement": {"type": "string"}, "why": {"type": "string"}, "stage": {"type": "string"}}}}}},
  "Plan": {"type": "object", "required": ["label", "systems", "total_seconds", "volume_ml", "hold_minutes", "requirements"],
    "properties": {"label": {"type": "object"}, "systems": {"type": "array", "items": {"type": "object"}},
    "total_seconds": {"type": "integer"}, "volume_ml": {"type": "object"}, "hold_minutes": {"type": "object"},
    "requirements": {"type": "array", "items": {"type": "object"}}}},
  "Entries": {"type": "object", "required": ["items", "next", "size"], "properties": {
    "next": {"type": "integer"}, "size": {"type": "integer"}, "items": {"type": "array", "items": {"type": "object",
    "required": ["seq", "id", "happened_ms", "received_ms", "actor", "device", "kind", "body"], "properties": {
      "seq": {"type": "integer"}, "id": {"type": "string"}, "happened_ms": {"type": "integer"},
      "received_ms": {"type": "integer"}, "actor": {"type": "string"}, "device": {"type": "string"},
      "kind": {"type": "string"}, "body": {"type": "object"},
      "corrects": {"type": "string", "description": "id of the entry that it puts right"}, "reason": {"type": "string"},
      "corrected_by": {"type": "array", "items": {"type": "integer"}, "description": "numbers of the entries that put it right"}}}}}},
  "Documents": {"type": "object", "required": ["documents", "size"], "properties": {"size": {"type": "integer"},
    "documents": {"type": "array", "items": {"type": "object", "required": ["kind", "key", "body", "live"], "properties": {
      "kind": {"type": "string"}, "key": {"type": "string"}, "body": {"type": "object"}, "live": {"type": "boolean"}}}}}},
  "Synced": {"type": "object", "required": ["results", "clock_off_ms", "size"], "properties": {
    "size": {"type": "integer"}, "clock_off_ms": {"type": "integer"}, "results": {"type": "array", "items": {"type": "object",
    "required": ["id", "result"], "properties": {"id": {"type": "string"}, "result": {"type": "string"},
      "seq": {"type": "integer"}, "departures": {"type": "array", "items": {"$ref": "#/components/schemas/Departure"}}}}}}},
  "Audit": {"type": "object", "required": ["departures"], "properties": {
    "departures": {"type": "array", "items": {"type": "object"}}}},
  "AuditRules": {"type": "object", "required": ["rules"], "properties": {"rules": {"type": "array", "items": {"type": "object"}}}},
  "Retention": {"type": "object", "required": ["records"], "properties": {"records": {"type": "array", "items": {"type": "object"}}}},
  "Checkpoint": {"type": "object", "required": ["checkpoint"], "properties": {"checkpoint": {"type": "string"}}},
  "Proof": {"type": "object", "required": ["proof"], "properties": {"proof": {"type": "string"}}}
})json";

}  // namespace

nlohmann::json answer_schemas() { return nlohmann::json::parse(schemas); }

}  // namespace fogwright::server
