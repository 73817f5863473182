// The pen that draws, its inks, lines and words.
import { picture } from "./frame.js";

const TAU = Math.PI * 2;
const INKS = ["floor", "words", "quiet", "faint", "odd", "even", "outline", "number", "linen"];

/** @returns {CanvasRenderingContext2D} */
function takePen() {
  const taken = picture.getContext("2d");
  if (!taken) throw new Error("the browser draws no pictures");
  return taken;
}

export const pen = takePen();

/**
 * The colours of the look, by name.
 * @type {Record<string, string>}
 */
export const ink = {};

export function readInk() {
  const style = getComputedStyle(document.documentElement);
  for (const name of INKS) ink[name] = style.getPropertyValue(`--${name}`).trim();
}

/**
 * A line through points.
 * @param {number[][]} points
 * @param {string} colour
 * @param {number} width pixels
 * @param {number[]} [dash] pixels
 */
export function line(points, colour, width, dash) {
  trace(points);
  pen.setLineDash(dash || []);
  pen.strokeStyle = colour;
  pen.lineWidth = width;
  pen.stroke();
  pen.setLineDash([]);
}

/**
 * What lies between points.
 * @param {number[][]} points
 * @param {string} colour
 */
export function area(points, colour) {
  trace(points);
  pen.fillStyle = colour;
  pen.fill();
}

/** @param {number[][]} points */
function trace(points) {
  pen.beginPath();
  points.forEach(([x, y], index) => (index ? pen.lineTo(x, y) : pen.moveTo(x, y)));
}

/**
 * An ellipse, filled, edged or both.
 * @param {number[]} at pixels
 * @param {number[]} radii pixels
 * @param {string | null} fill
 * @param {string} [edge]
 * @param {number} [edgeWidth] pixels
 */
export function oval([x, y], [across, along], fill, edge, edgeWidth = 1) {
  pen.beginPath();
  pen.ellipse(x, y, across, along, 0, 0, TAU);
  fillAndEdge(fill, edge, edgeWidth);
}

/**
 * A block round the middle, its corners rounded where the browser can.
 * @param {number[]} radii pixels
 * @param {number} corner pixels
 * @param {string} fill
 * @param {string} edge
 * @param {number} edgeWidth pixels
 */
export function block([across, along], corner, fill, edge, edgeWidth) {
  pen.beginPath();
  if (pen.roundRect) pen.roundRect(-across, -along, across * 2, along * 2, corner);
  else pen.rect(-across, -along, across * 2, along * 2);
  fillAndEdge(fill, edge, edgeWidth);
}

/**
 * @param {string | null} fill
 * @param {string | undefined} edge
 * @param {number} edgeWidth
 */
function fillAndEdge(fill, edge, edgeWidth) {
  if (fill) {
    pen.fillStyle = fill;
    pen.fill();
  }
  if (edge) {
    pen.strokeStyle = edge;
    pen.lineWidth = edgeWidth;
    pen.stroke();
  }
}

/**
 * A broken ring round the middle.
 * @param {number} radius pixels
 * @param {string} colour
 */
export function ring(radius, colour) {
  pen.beginPath();
  pen.arc(0, 0, radius, 0, TAU);
  pen.setLineDash([3, 4]);
  pen.strokeStyle = colour;
  pen.lineWidth = 1.5;
  pen.stroke();
  pen.setLineDash([]);
}

/**
 * Words with their middle at a place.
 * @param {string} text
 * @param {number[]} at pixels
 * @param {number} size pixels
 * @param {string} colour
 * @param {boolean} [heavy]
 */
export function words(text, [x, y], size, colour, heavy) {
  pen.font = `${heavy ? "700" : "400"} ${size}px system-ui, sans-serif`;
  pen.textAlign = "center";
  pen.textBaseline = "middle";
  pen.fillStyle = colour;
  pen.fillText(text, x, y);
}
