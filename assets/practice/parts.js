// The parts of the page, found by their id, and what is written into them.

/**
 * A part of the page.
 * @param {string} id
 * @returns {HTMLElement}
 */
export function find(id) {
  return findAs(id, HTMLElement);
}

/**
 * A part of the page that is of a kind.
 * @template {HTMLElement} Part
 * @param {string} id
 * @param {new () => Part} kind
 * @returns {Part}
 */
export function findAs(id, kind) {
  const part = document.getElementById(id);
  if (!(part instanceof kind)) throw new Error(`the page has no part ${id} of the right kind`);
  return part;
}

/**
 * Writes into a part, where that says something else.
 * @param {string} id
 * @param {string} text
 */
export function put(id, text) {
  const part = find(id);
  if (part.textContent !== text) part.textContent = text;
}

/**
 * Shows which of a row of buttons is pressed.
 * @param {string} id
 * @param {string} value
 */
export function press(id, value) {
  for (const button of find(id).querySelectorAll("button")) {
    button.setAttribute("aria-pressed", String(button.dataset.value === value));
  }
}
