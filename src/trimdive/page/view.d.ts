// What the server tells the page's scripts, by name, and what these tell each other. Only for those
// who work on it: nothing of it reaches the browser. Lengths are millimetres, angles degrees.

/** How she lies: `Lie` in track.py. */
interface Lie {
  filling: number; // on the way from blown to full
  up_x: number; // what is up, in her axes
  up_y: number;
  up_z: number;
  water: number; // height of the water along up
  g_x: number;
  g_z: number;
  b_x: number;
  b_z: number;
  bg: number; // B over G along the plumb line, as the figure beside her has it
  trim: number; // by the bow
  heel: number; // to starboard
  tanks: InTank[]; // in the order of the boat file
}

/** Water in a tank: how full it is, and the height of the water along up. */
interface InTank {
  share: number;
  level: number;
}

/** A stretch of the dive without a jump: a list for each name of `Lie`, in rising order of filling. */
type Run = { [name in Exclude<keyof Lie, "tanks">]: number[] } & {
  tanks: { share: number[]; level: number[] }[];
};

/** A place in a picture: along it, and up. */
interface Point {
  x: number;
  z: number;
}

interface Corner {
  x: number;
  y: number;
  z: number;
}

/** A unit to write in: its name, and how many decimals it is given. */
interface Unit {
  name: string;
  decimals: number;
}

interface Tank {
  name: string;
  kind: string;
  loop: { x: number[]; z: number[] }; // its room from the side
  end?: number; // of a piston tank: where its water ends
  run?: number; // and how far the piston goes, aft negative
}

/** The whole dive: `table` in track.py. */
interface Dive {
  bounds: { low: Corner; high: Corner };
  middle: number;
  tanks: Tank[];
  marks: { name: string; x: number; z: number }[]; // places on the waterline meant
  length: Unit & { per_mm: number };
  weight: Unit & { blown: number; full: number }; // weight less buoyancy, in that unit
  hatch: string;
  share: { blown: number; full: number }; // how full her tanks are, at either end of the slider
  neutral: number | null; // where on the way she is neutral wholly under
  down: Run[];
  up: Run[];
  heels: { start: number; end: number; heel: number }[]; // fillings over which she is not upright
  jumps: { filling: number; angle: number }[];
  events: { filling: number; kind: string; says: string }[];
}

interface Figure {
  name?: string;
  large: string;
  word: string; // which way
  off: string; // its ±, once it is calculated
  says: string; // the moment
}

/** How she lies, in words and figures. */
interface View {
  lie: Lie;
  words: string;
  figures: Figure[];
}

/** How her file stands: `_stand` in app.py. */
interface Stand {
  revision: number;
  is_changed_on_disk: boolean;
  is_saved: boolean;
  trouble: string;
}

/** A gap to what is next to a thing in hand. */
interface Gap {
  start: Point;
  end: Point;
  says: string;
}

/** A thing that is picked up: `in_hand` in trial.py. */
interface Held extends Point {
  path: string;
  along: string[]; // paths of what goes with it, its own first
  near: string[];
  gaps: Gap[];
  told: string; // what it is
  panel: string; // its fields, as HTML
}

/** What she does with it somewhere else: `trial` in trial.py. */
interface Trial extends View, Point {
  shift: Point;
  at: string; // where its middle is, in words: along her, and high
  high: string;
  stopped: string;
  near: string[];
  gaps: Gap[];
  rows: { name: string; now: string; then: string }[];
  curve: { filling: number[]; trim: number[] };
}

/** A section across her: `cut_told` in cut_at.py. */
interface CutView {
  x: number;
  at: string;
  says: string;
  svg: string;
  tanks: { number: number; y: number[]; z: number[] }[];
}

/** One body in 3D: `packed` in board_solid.py; its triangles and edges by where they begin, in numbers of corners. */
interface SolidBody {
  kind: string;
  path: string;
  name: string;
  says: string;
  place: [number, number, number]; // its middle [m]
  first: number;
  count: number;
  line: number;
  lines: number;
}

interface SolidHead {
  corners: number;
  triangles: number;
  edges: number;
  bodies: SolidBody[];
}

/** What bears how much, on the bench. */
interface Limit {
  name: string;
  drawn: string;
  bears: number;
  gives: number | null; // none of a seal
}

/** What the water dial reads: `table_told` in pond/html.py. */
interface DialTable {
  own: number;
  celsius: { start: number; step: number };
  grids: Record<string, { salts: { start: number; step: number; count: number }; rows: number[][] }>;
  fine: number;
  from: number;
  step: number;
  rows: { [name in keyof DialRow]: DialRow[name][] };
  tanks: { blown: number; full: number; room: number };
  units: Record<string, Unit & { per: number; offset: number; small: number }>;
  words: Record<string, string>;
  place: string;
  trimmed: string;
}

interface DialRow {
  lead: number;
  foam: number;
  neutral: number;
  short: number;
  rises: number | null; // nothing where she does not float
  trim: number | null; // nothing where she does not hang
}

/** What is drawn over the picture of a plan, in its pixels: `_state` in board_trace_view.py. */
interface TraceState {
  size: [number, number];
  active: string; // what the next click is of
  named: string; // the same, for the builder
  says: string; // what to click
  refused: string; // why what was asked last was not done; "" where it was
  asked: string; // a figure that is to be typed now; "" for none
  things: { [key: string]: [number, number, boolean, string][] }; // right, down, on ink, its name
  drawn: { [key: string]: [number, number][] }; // lines that are taken
  spots: [number, number][]; // where two views differ
  undo: boolean;
  redo: boolean;
  hull: boolean;
}

declare module "*/pond/dial.js"; // served beside the place

interface Htmx {
  ajax(
    verb: string,
    address: string,
    how: { source: Element; target: Element; swap: string; values: Record<string, string> },
  ): Promise<void>;
  swap(target: Element, html: string, how: { swapStyle: string }, by: { contextElement: Element }): void;
}

/** Of idiomorph, what the page asks of it. */
interface Morphing {
  morph(room: Element, html: string, how: { morphStyle: "innerHTML" }): void;
  defaults: {
    callbacks: {
      beforeNodeMorphed: (old: Node, next: Node) => boolean;
      beforeNodeRemoved: (old: Node) => boolean;
      beforeAttributeUpdated: (name: string, element: Element, how: "update" | "remove") => boolean;
    };
  };
}

interface Window {
  htmx: Htmx;
  Idiomorph: Morphing;
}

interface HTMLElementTagNameMap {
  "boat-drawing": import("./static/page.js").BoatDrawing;
  "weight-list": import("./static/places/scales.js").WeightList;
}

type Boat = import("./static/boat.js").Boat;

interface DocumentEventMap {
  lies: CustomEvent<Boat>; // she is shown another way
  sectioned: CustomEvent<{ boat: Boat; x: number | null }>; // a section is shown, or none
  picked: CustomEvent<string>; // a thing is taken in hand, by its path
  refused: CustomEvent<string>;
  sending: Event; // something was sent, or answered
  gone: CustomEvent; // the program has stopped
  turned: CustomEvent; // the water dial
  "htmx:beforeSwap": CustomEvent;
  "htmx:afterSwap": CustomEvent;
  "htmx:afterSettle": CustomEvent;
  "htmx:sendError": CustomEvent;
  "htmx:responseError": CustomEvent<{ xhr: XMLHttpRequest }>;
}
