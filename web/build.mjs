// SPDX-License-Identifier: Apache-2.0
// Usage: node build.mjs [--out FOLDER] [--engine FOLDER] [--depfile FILE]: the pages, ready to be served, into FOLDER
// (build/pages). Names of files under assets/ carry a digest of their content, so that they can be kept for ever.
// --engine: where the two engines are, fogwright_plan_wasm and fogwright_wasm, .js and .wasm (build/browser/src/browser);
// without them the pages ask the server for everything and cannot work without a signal. --depfile: tells the build what
// the pages were made from.
import { createHash } from "node:crypto";
import { mkdirSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { build } from "esbuild";
import "./generate_types.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const { values: given } = parseArgs({ options: { out: { type: "string" }, engine: { type: "string" }, depfile: { type: "string" } } });
const out = resolve(given.out ?? join(here, "../build/pages"));
const engineFolder = given.engine && resolve(given.engine);

const shared = {
  bundle: true,
  minify: true,
  target: ["es2021", "chrome100", "firefox100", "safari15.4"],
  jsx: "automatic",
  jsxImportSource: "preact",
  legalComments: "none",
  logLevel: "warning",
};

const madeFrom = new Set(["build.mjs", "generate_types.mjs", "../docs/openapi.json", "src/early.ts", "src/worker/service_worker.ts"].map((path) => join(here, path)));
const digest = (bytes) => createHash("sha256").update(bytes).digest("hex");
const read = (path) => {
  madeFrom.add(join(here, path));
  return readFileSync(join(here, path));
};

/** Puts a file under a name that carries its digest; gives its address. */
function keep(name, bytes) {
  const [, stem, ending] = /^(.*)\.(\w+)$/.exec(name);
  const address = `/assets/${stem}-${digest(bytes).slice(0, 10)}.${ending}`;
  writeFileSync(join(out, address), bytes);
  return address;
}

/** Addresses of both engines' files; null where there are none. */
function keepEngines() {
  if (!engineFolder) return null;
  const of = (stem, file) => {
    const [script, wasm] = ["js", "wasm"].map((ending) => keep(`${stem}.${ending}`, readFileSync(join(engineFolder, `${file}.${ending}`))));
    return { script, wasm };
  };
  return { planner: of("planner", "fogwright_plan_wasm"), whole: of("engine", "fogwright_wasm") };
}

/**
 * What is loaded later says that it stands on the app: then all that it shares with it comes in one piece, instead of
 * one for each set of views that share something, a kilobyte of headers with every one.
 */
const onTheApp = {
  name: "on-the-app",
  setup(bundle) {
    bundle.onLoad({ filter: /\/src\/views\/(office|audit|mix)\/\w+\.tsx$/ }, ({ path }) => {
      const text = readFileSync(path, "utf8");
      return { loader: "tsx", contents: /^export default /m.test(text) ? `${text}\nimport "../../app";\n` : text };
    });
  },
};

async function bundleApp(engines) {
  const result = await build({
    ...shared,
    entryPoints: { app: join(here, "src/main.tsx"), styles: join(here, "src/styles/index.css") },
    outdir: join(out, "assets"),
    entryNames: "[name]-[hash]",
    chunkNames: "[name]-[hash]",
    format: "esm",
    splitting: true,
    metafile: true,
    plugins: [onTheApp],
    define: { ENGINES: JSON.stringify(engines) },
  });
  for (const input of Object.keys(result.metafile.inputs)) madeFrom.add(resolve(input));
  const names = Object.entries(result.metafile.outputs).filter(([, of]) => of.entryPoint);
  const addressOf = (source) => "/" + relative(out, resolve(names.find(([, of]) => of.entryPoint.endsWith(source))[0]));
  return { app: addressOf("main.tsx"), styles: addressOf("index.css") };
}

/** A plain script, since modules run only after the first paint. */
async function bundleEarly() {
  const { outputFiles } = await build({ ...shared, entryPoints: [join(here, "src/early.ts")], format: "iife", write: false });
  return keep("early.js", outputFiles[0].contents);
}

function writeIndex(app, early, icon) {
  const manifest = keep("manifest.webmanifest", Buffer.from(read("static/manifest.webmanifest").toString().replaceAll("ICON", icon)));
  const page = read("static/index.html").toString()
    .replace("EARLY", early).replace("STYLES", app.styles).replace("APP", app.app)
    .replaceAll("ICON", icon).replace("MANIFEST", manifest);
  writeFileSync(join(out, "index.html"), page);
}

function filesBelow(folder) {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesBelow(path) : [path];
  });
}

/** Last, since it lists everything else. */
async function bundleServiceWorker() {
  const manifest = filesBelow(out).map((path) => {
    const url = "/" + relative(out, path);
    return { url, revision: url.startsWith("/assets/") ? null : digest(readFileSync(path)).slice(0, 16) };
  });
  await build({
    ...shared,
    entryPoints: { service_worker: join(here, "src/worker/service_worker.ts") },
    outdir: out,
    format: "iife",
    define: { PRECACHE: JSON.stringify(manifest), "process.env.NODE_ENV": '"production"' },
  });
}

rmSync(out, { recursive: true, force: true });
mkdirSync(join(out, "assets"), { recursive: true });
const icon = keep("icon.svg", read("static/icon.svg"));
writeIndex(await bundleApp(keepEngines()), await bundleEarly(), icon);
writeFileSync(join(out, "robots.txt"), read("static/robots.txt"));
await bundleServiceWorker();
// Made anew each time, and so no part of what changes.
madeFrom.delete(join(here, "src/api/generated.ts"));
if (given.depfile) writeFileSync(given.depfile, `${join(out, "index.html")}: ${[...madeFrom].join(" ")}\n`);
