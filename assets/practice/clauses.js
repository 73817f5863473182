// The few words that are read at arm's length: this bar's and the next one's, and the figure in a line.
import { barAt, callOf, counts, dance, shownSpanAt, spanOf } from "./dance.js";
import { find, put } from "./parts.js";
import { state } from "./state.js";

/** @param {string} text */
const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * What is said of a bar: of the chosen dancer one line, of everybody a line for those who do the same.
 * @param {number} bar from 0
 * @param {DancedSpan} span the figure that it is of
 * @returns {string[]}
 */
function linesOf(bar, span) {
  const { short } = dance.played[span.played];
  const inside = bar - span.bar;
  const indices = state.chosen === null ? short.side[inside] : [short.clauses[state.chosen][inside]];
  return indices.map((index) => capital(dance.texts[index]));
}

/**
 * Writes lines into a part, where that says something else.
 * @param {string} id
 * @param {string} before what stands before the first of them
 * @param {string[]} lines
 */
function putLines(id, before, lines) {
  const host = find(id);
  const text = `${before}${lines.join("\n")}`;
  host.classList.toggle("many", state.chosen === null);
  if (host.dataset.said === text) return;
  host.dataset.said = text;
  host.replaceChildren(...lines.map((line, index) => {
    const part = document.createElement("span");
    if (index === 0 && before) {
      const lead = document.createElement("i");
      lead.textContent = before;
      part.append(lead);
    }
    part.append(line);
    return part;
  }));
}

/** @param {number} count */
export function showClauses(count) {
  const span = spanOf(count);
  const { short } = dance.played[span.played];
  const gist = dance.texts[state.chosen === null ? short.sideGist : short.gists[state.chosen]];
  put("gist", gist);
  put("gist-whole", gist);
  const bar = barAt(Math.min(count + 1e-6, counts - 1e-6));
  putLines("clause", "", linesOf(bar, span));
  if (bar + 1 < span.bar + span.bars) {
    putLines("next-clause", "Next: ", linesOf(bar + 1, span));
    return;
  }
  const next = dance.spans[shownSpanAt(count) + 1];
  putLines("next-clause", next ? `Next, ${callOf(next)}: ` : "Next: ", next ? linesOf(bar + 1, next) : ["The end"]);
}
