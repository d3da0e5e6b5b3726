// SPDX-License-Identifier: Apache-2.0
// Writes src/api/generated.ts from docs/openapi.json: the shapes of the API and a table of its operations, so that
// neither is written a second time by hand.
import { readFileSync, writeFileSync } from "node:fs";

const description = JSON.parse(readFileSync(new URL("../docs/openapi.json", import.meta.url), "utf8"));

const nameOf = (ref) => ref.split("/").pop();
const member = (name) => (/^[A-Za-z_]\w*$/.test(name) ? name : JSON.stringify(name));

function typeOf(schema) {
  if (schema.$ref) return nameOf(schema.$ref);
  if (schema.enum) return schema.enum.map((value) => JSON.stringify(value)).join(" | ");
  switch (schema.type) {
    case "array": return schema.items ? `(${typeOf(schema.items)})[]` : "unknown[]";
    case "integer":
    case "number": return "number";
    case "boolean": return "boolean";
    case "string": return "string";
    default: return schema.properties ? objectType(schema) : "Loose";
  }
}

function objectType(schema) {
  const required = new Set(schema.required ?? []);
  const members = Object.entries(schema.properties).map(([name, of]) => {
    const words = of.description ? `/** ${of.description.replaceAll("*/", "")} */ ` : "";
    return `${words}${member(name)}${required.has(name) ? "" : "?"}: ${typeOf(of)};`;
  });
  return `{ ${members.join(" ")} }`;
}

function answerOf(operation) {
  const done = operation.responses["200"] ?? operation.responses["201"];
  const schema = done?.content && Object.values(done.content)[0]?.schema;
  return schema ? typeOf(schema) : "unknown";
}

function operations() {
  const shapes = [];
  const rows = [];
  for (const [path, methods] of Object.entries(description.paths)) {
    for (const [method, operation] of Object.entries(methods)) {
      const body = operation.requestBody ? typeOf(Object.values(operation.requestBody.content)[0].schema) : "undefined";
      const queries = (operation.parameters ?? []).filter((p) => p.in === "query").map((p) => `${member(p.name)}?: string;`);
      shapes.push(`  /** ${operation.summary} */\n  ${operation.operationId}: { body: ${body}; query: { ${queries.join(" ")} }; answer: ${answerOf(operation)} };`);
      rows.push(`  ${operation.operationId}: ["${method.toUpperCase()}", "${path}"],`);
    }
  }
  return { shapes, rows };
}

const schemas = Object.entries(description.components.schemas).map(([name, schema]) =>
  schema.properties ? `export interface ${name} ${objectType(schema)}` : `export type ${name} = ${typeOf(schema)};`);
const { shapes, rows } = operations();

writeFileSync(new URL("src/api/generated.ts", import.meta.url), `// SPDX-License-Identifier: Apache-2.0
// Made from docs/openapi.json by generate_types.mjs. Not for editing.

/** An object whose members the description leaves open (docs/entries.md, docs/plan-json.md). */
export type Loose = Record<string, unknown>;

${schemas.join("\n")}

export interface Operations {
${shapes.join("\n")}
}
export type OperationId = keyof Operations;

/** Method and address of each operation. */
export const operationTable: Record<OperationId, readonly [method: string, path: string]> = {
${rows.join("\n")}
};
`);
