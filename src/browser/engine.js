// SPDX-License-Identifier: Apache-2.0
// Part of the JavaScript file of the engine with the desk; engine.d.ts describes it.
const callDesk = (call) => {
  const answer = JSON.parse(askEngine(_fogwright_desk, JSON.stringify(call)));
  if ("error" in answer) throw new Error(answer["error"]);
  return answer["value"];
};

Module["restore"] = (documents, size) => callDesk({"call": "restore", "documents": documents, "size": size});
Module["fold"] = (entry) => callDesk({"call": "fold", "entry": entry});
Module["drop"] = (id) => callDesk({"call": "drop", "id": id});
Module["answers"] = (method, path) => callDesk({"call": "answers", "method": method, "path": path});
Module["ask"] = (request) => callDesk({"call": "ask", "request": request});
Module["snapshot"] = () => callDesk({"call": "snapshot"});
Module["size"] = () => callDesk({"call": "size"});
