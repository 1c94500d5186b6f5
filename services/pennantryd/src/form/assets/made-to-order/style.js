/**
 * How it looks: unbleached paper, indigo thread, a tape. One sheet, adopted by each element,
 * so no page has to allow styles within its markup.
 *
 * A page sets --mto-paper, --mto-card, --mto-ink, --mto-soft, --mto-thread, --mto-accent,
 * --mto-on-accent, --mto-mend, --mto-tape, --mto-font, --mto-heading-font and --mto-radius;
 * theme="light" or theme="dark" overrules what the system prefers.
 */

const NIGHT = `
  --paper: var(--mto-paper, #181b24); --card: var(--mto-card, #20242f); --ink: var(--mto-ink, #ede5d4);
  --soft: var(--mto-soft, #b9b2a3); --thread: var(--mto-thread, #787161); --accent: var(--mto-accent, #b4c4ec);
  --on-accent: var(--mto-on-accent, #181b24); --mend: var(--mto-mend, #f0b09c); --tape: var(--mto-tape, #4b442e); --dot: #ede5d41c;
  color-scheme: dark;`;

const CSS = `
:host {
  --paper: var(--mto-paper, #f5efe3); --card: var(--mto-card, #fcf9f2); --ink: var(--mto-ink, #232a3d);
  --soft: var(--mto-soft, #595d69); --thread: var(--mto-thread, #8a7d63); --accent: var(--mto-accent, #2d4275);
  --on-accent: var(--mto-on-accent, #fcf9f2); --mend: var(--mto-mend, #7d3326); --tape: var(--mto-tape, #efdda4); --dot: #232a3d1f;
  --font: var(--mto-font, system-ui, -apple-system, "Segoe UI", Roboto, sans-serif);
  --heading: var(--mto-heading-font, "Iowan Old Style", "Palatino Linotype", Palatino, "URW Palladio L", "P052", Georgia, serif);
  --radius: var(--mto-radius, 3px);
  --stitch: repeating-linear-gradient(90deg, var(--thread) 0 8px, transparent 8px 13px);
  display: block; container-type: inline-size; color-scheme: light;
  background: var(--paper);
}
:host([hidden]) { display: none; }
@media screen and (prefers-color-scheme: dark) { :host(:not([theme="light"])) {${NIGHT}} }
@media screen { :host([theme="dark"]) {${NIGHT}} }
*, *::before, *::after { box-sizing: border-box; }
[hidden] { display: none !important; }
h2, h3, h4, p, ul, ol, dl, dd, figure, fieldset, table { margin: 0; padding: 0; border: 0; min-width: 0; }
ul, ol { list-style: none; }
h2, h3, h4 { font-family: var(--heading); font-weight: 600; line-height: 1.2; text-wrap: balance; }
small, .fine, .hint, .echo { font-size: .875rem; color: var(--soft); }
.unseen { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); white-space: nowrap; }
:focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; border-radius: 2px; }
button, input, select, summary { scroll-margin: 5rem 0 6rem; }
button, input, select { font: inherit; color: inherit; scroll-margin: 5rem 0 6rem; }

.form { all: initial; color-scheme: inherit; color: var(--ink); font: 1rem/1.5 var(--font); text-align: start; letter-spacing: normal; text-transform: none; display: grid; gap: 1.25rem; padding: clamp(.75rem, 3cqi, 2rem); max-width: 82rem; margin-inline: auto; }
.head { display: grid; gap: .1rem; }
.shop { font-size: .9375rem; color: var(--soft); letter-spacing: .02em; }
.head :is(h1, h2) { margin: 0; font-family: var(--heading); line-height: 1.2; text-wrap: balance; font-size: clamp(1.6rem, 1.1rem + 2.6cqi, 2.7rem); font-weight: 500; letter-spacing: -.01em; }

.drawing { display: grid; gap: .25rem; }
.stage {
  position: relative; overflow: hidden; border-radius: var(--radius); background: radial-gradient(circle, var(--dot) 1px, transparent 1.4px) 50% 0 / 22px 22px, var(--card);
  box-shadow: 0 1px 0 var(--thread), 0 -1px 0 var(--thread);
}
.near { display: block; width: 100%; height: clamp(11.5rem, 21cqi, 18rem); }
.far { display: block; width: 100%; height: 3.25rem; touch-action: none; cursor: grab; }
.cloths path { stroke: #1c2030; stroke-opacity: .32; stroke-width: .8px; vector-effect: non-scaling-stroke; stroke-linejoin: round; }
.stitch { stroke-width: 1px; stroke-dasharray: 5 3.4; }
.letters { font-family: var(--heading); font-weight: 700; }
.hooks circle { fill: var(--card); stroke: var(--ink); stroke-width: 3.4px; }
.tape rect { fill: var(--tape); }
.tape path { stroke: var(--ink); stroke-opacity: .75; fill: none; }
.tape text { fill: var(--ink); font-family: var(--font); }
.pane { fill: none; stroke: var(--ink); stroke-width: 1.5px; stroke-dasharray: 5 3; vector-effect: non-scaling-stroke; }
.is-whole .pane { display: none; }
.is-whole .along { visibility: hidden; }
.along { width: 100%; margin: 0; min-height: 1.75rem; accent-color: var(--accent); }
.caption { font-size: .875rem; color: var(--soft); min-height: 3em; text-align: center; text-wrap: balance; }
.example { position: absolute; inset-block-start: .5rem; inset-inline-end: .75rem; font: italic .9375rem var(--heading); color: var(--soft); background: var(--card); padding-inline: .4em; }
.example:empty { display: none; }

.upper { display: grid; gap: .4rem; grid-template-columns: minmax(0, 1fr); }
.columns { display: grid; gap: 1.75rem; margin-block-start: .8rem; grid-template-columns: minmax(0, 1fr); }
.questions { display: grid; gap: 2rem; align-content: start; }
.question, .answer, .findings, .hold, .more-body { display: grid; gap: 1rem; align-content: start; grid-template-columns: minmax(0, 1fr); }
.question { padding-block-start: 1.25rem; background: var(--stitch) 0 0 / 100% 1.5px no-repeat; }
h3 { font-size: 1.35rem; font-weight: 500; display: flex; align-items: baseline; gap: .6rem; }
h4 { font-size: 1rem; }
.number { flex: none; inline-size: 1.75rem; block-size: 1.75rem; line-height: calc(1.75rem - 3px); text-align: center; border: 1.5px dashed var(--soft); border-radius: 50%; font-size: .9375rem; }

.field { display: grid; gap: .3rem; align-content: start; grid-template-columns: minmax(0, 1fr); }
.field > label, legend { font-weight: 600; padding: 0; }
legend .quiet, legend { margin-block-end: .2rem; }
.quiet { font-weight: 500; }
.hint:empty, .note:empty, .error:empty { display: none; }
.note { border-inline-start: 3px double var(--thread); padding-inline-start: .6rem; font-size: .9375rem; }
.error { color: var(--mend); border-inline-start: 3px solid var(--mend); padding-inline-start: .6rem; font-size: .9375rem; }
.control { display: flex; gap: .4rem; }
input[type=text], input[type=date], select {
  min-height: 2.9rem; inline-size: 100%; min-inline-size: 0; padding: .35rem .7rem; background: var(--card); border: 1.5px solid var(--soft); border-radius: var(--radius);
}
.length .control select { inline-size: auto; flex: none; padding-inline: .5rem; }
.short { max-inline-size: 8rem; }
[aria-invalid=true] { border-color: var(--mend) !important; border-width: 2px !important; }
.echo { display: block; min-height: 1.4em; font-variant-numeric: tabular-nums; }
.main .control input { font: 500 1.75rem/1.2 var(--heading); min-height: 3.6rem; font-variant-numeric: lining-nums tabular-nums; }
.main .control select { min-height: 3.6rem; }
.main .echo { font-size: 1rem; }
.pair { display: grid; gap: 1rem; grid-template-columns: repeat(auto-fit, minmax(min(100%, 13rem), 1fr)); align-items: start; }
.inner { padding-inline-start: 1rem; border-inline-start: 1.5px dashed var(--thread); }

.cards { display: grid; gap: .5rem; grid-template-columns: repeat(auto-fit, minmax(min(100%, 9.5rem), 1fr)); }
.card { position: relative; display: flex; gap: .55rem; align-items: center; min-height: 2.9rem; padding: .45rem .7rem; background: var(--card); border: 1.5px solid var(--thread); border-radius: var(--radius); cursor: pointer; }
.card-words { display: grid; line-height: 1.3; }
.card input, .tick input { flex: none; inline-size: 1.2rem; block-size: 1.2rem; margin: 0; accent-color: var(--accent); }
.card:has(:checked) { border-color: var(--accent); box-shadow: inset 0 0 0 1px var(--accent); }
.card:has(:focus-visible) { outline: 3px solid var(--accent); outline-offset: 2px; }
.card :focus-visible { outline: none; }
.measure .cards { grid-template-columns: repeat(3, minmax(0, 1fr)); }
.measure .card { display: grid; grid-template-columns: auto 1fr; align-content: start; align-items: start; gap: .3rem .45rem; padding: .5rem .5rem .6rem; }
.measure .card svg { grid-column: 1 / -1; grid-row: 1; justify-self: center; }
.measure .card input { margin-block-start: .15rem; }
.measure small { line-height: 1.25; }
.meaning { inline-size: 100%; max-inline-size: 10rem; }
.meaning .flag { fill: var(--accent); fill-opacity: .2; stroke: var(--ink); stroke-width: 1; stroke-linejoin: round; }
.meaning .string { fill: none; stroke: var(--ink); stroke-width: 2.4; }
.meaning .nail { fill: var(--card); stroke: var(--ink); stroke-width: 1.6; }
.meaning .rule { fill: none; stroke: var(--mend); stroke-width: 1.6; }
.shapes .cards { grid-template-columns: repeat(auto-fit, minmax(6.2rem, 1fr)); }
.shapes .card { flex-direction: column; text-align: center; padding: .5rem; }
.shape { inline-size: 2.4rem; fill: var(--accent); fill-opacity: .18; stroke: var(--ink); stroke-width: 5; stroke-linejoin: round; }

.cloths-grid { display: grid; gap: .6rem; grid-template-columns: repeat(auto-fill, minmax(6.4rem, 1fr)); }
.cloth { position: relative; display: grid; gap: .3rem; align-content: start; padding: .45rem; background: var(--card); border: 1.5px solid transparent; border-radius: var(--radius); text-align: start; cursor: pointer; }
.cloth:hover { border-color: var(--thread); }
.cloth[aria-pressed=true] { border-color: var(--accent); box-shadow: inset 0 0 0 1px var(--accent); }
.swatch { display: block; inline-size: 100%; aspect-ratio: 1.25; }
.cloth .swatch {
  --pink: conic-gradient(from -45deg at bottom, #0000, #000 1deg 89deg, #0000 90deg);
  mask: var(--pink) 50% 100% / 8px 100% repeat-x;
}
.cloth-name { display: grid; font-size: .9375rem; line-height: 1.25; overflow-wrap: anywhere; }
.place { position: absolute; inset-block-start: .15rem; inset-inline-end: .15rem; min-inline-size: 1.6rem; block-size: 1.6rem; line-height: 1.6rem; text-align: center; border-radius: 50%; background: var(--accent); color: var(--on-accent); font-size: .875rem; font-weight: 600; }
.place:empty { display: none; }

.more { background: var(--stitch) 0 0 / 100% 1.5px no-repeat; padding-block-start: .5rem; }
summary { cursor: pointer; min-height: 2.75rem; padding-block: .6rem; }
.more > summary { font: 500 1.25rem var(--heading); display: grid; grid-template-columns: auto 1fr; column-gap: .6rem; align-items: baseline; }
.more > summary::before { content: "+"; font-size: 1.4rem; grid-row: 1 / 3; inline-size: 1ch; }
.more[open] > summary::before { content: "−"; }
.more > summary small { font-family: var(--font); grid-column: 2; }
.more-body { gap: 1.6rem; padding-block: .75rem 1rem; }
.order { display: grid; gap: .3rem; }
.order li { display: flex; align-items: center; gap: .35rem; background: var(--card); border: 1.5px solid var(--thread); border-radius: var(--radius); padding: .2rem .3rem; }
.order .swatch { inline-size: 2.6rem; block-size: 2.2rem; aspect-ratio: auto; flex: none; }
.order-name { flex: 1; min-inline-size: 0; overflow-wrap: anywhere; line-height: 1.2; }
.grip { cursor: grab; touch-action: none; font-size: 1.3rem; inline-size: 2rem; block-size: 2.75rem; line-height: 2.75rem; text-align: center; color: var(--soft); }
.is-dragged { opacity: .6; }
.is-target { outline: 2px dashed var(--accent); }

button { min-height: 2.75rem; }
.icon { inline-size: 2.75rem; flex: none; background: none; border: 1.5px solid transparent; border-radius: var(--radius); font-size: 1.15rem; cursor: pointer; }
.icon:hover { border-color: var(--thread); }
[aria-disabled=true] { color: var(--soft); opacity: .55; cursor: default; }
.small, .step, .way, .deed { background: var(--card); border: 1.5px solid var(--accent); color: var(--accent); border-radius: var(--radius); padding: .4rem .9rem; cursor: pointer; }
.deed { background: var(--accent); color: var(--on-accent); font-weight: 600; padding: .7rem 1.4rem; justify-self: start; outline-offset: 3px; box-shadow: inset 0 0 0 2.5px var(--accent), inset 0 0 0 3.5px color-mix(in srgb, var(--on-accent) 45%, transparent); }
.link { background: none; border: 0; padding: .2rem 0; min-height: 1.75rem; text-decoration: underline; text-underline-offset: .2em; color: var(--accent); text-align: start; cursor: pointer; }

.answer { background: var(--card); border-radius: var(--radius); padding: 1.1rem clamp(.9rem, 2.5cqi, 1.5rem); border: 1.5px dashed var(--thread); }
.answer h2 { font-size: 1.05rem; color: var(--soft); }
.price { display: grid; gap: .1rem; }
.total { font: 500 clamp(2.3rem, 1.8rem + 2cqi, 3.2rem)/1.1 var(--heading); font-variant-numeric: lining-nums tabular-nums; min-height: 1.1em; }
.beside { font-size: .875rem; color: var(--soft); min-height: 1.5em; }
.arrives { min-height: 3em; }
.state { min-height: 1.5em; font-style: italic; color: var(--soft); }
.state:empty { min-height: 0; }
.is-stale :is(.near, .far) { opacity: .45; }
.is-stale :is(.price, .lines, .finding-list, .count, .bar) { color: var(--soft); text-decoration: line-through; text-decoration-thickness: 1px; }
.count { display: grid; grid-template-columns: auto 1fr auto; align-items: center; gap: .6rem; text-align: center; }
.count:empty { display: none; }
.count p { display: grid; line-height: 1.3; }
.count .link { grid-column: 1 / -1; text-align: center; }
.step { inline-size: 2.9rem; padding: 0; font-size: 1.4rem; line-height: 1; }
.day, .ways { display: grid; gap: .5rem; }
.day:empty { display: none; }
.way { display: grid; inline-size: 100%; text-align: start; }
.way span { color: var(--ink); font-size: .9375rem; }
table { inline-size: 100%; border-collapse: collapse; font-variant-numeric: tabular-nums; }
caption { text-align: start; font-weight: 600; padding-block-end: .2rem; }
th { text-align: start; font-weight: 400; padding: .22rem .6rem .22rem 0; vertical-align: top; }
td { text-align: end; white-space: nowrap; padding: .22rem 0; vertical-align: top; }
.sum { background: var(--stitch) 0 0 / 100% 1.5px no-repeat; font-weight: 600; }
.sum th { font-weight: 600; }
.lines { display: grid; gap: .75rem; }
.withdrawal { font-size: .9375rem; }
.withdrawal small { display: block; }

.summary { border: 2px solid var(--mend); border-radius: var(--radius); padding: .8rem 1rem; display: grid; gap: .4rem; }
.summary li { padding-block: .1rem; }
.summary .link { color: var(--mend); }

.after { display: grid; gap: 2rem; grid-template-columns: minmax(0, 1fr); }
.findings, .hold, .share { background: var(--stitch) 0 0 / 100% 1.5px no-repeat; padding-block-start: 1.25rem; }
.findings:empty, .hold:empty { display: none; }
.outcome { font-size: 1.0625rem; max-inline-size: 44rem; }
.finding-list { display: grid; gap: .75rem; grid-template-columns: repeat(auto-fit, minmax(min(100%, 24rem), 1fr)); }
.finding { display: grid; gap: .5rem; align-content: start; background: var(--card); border-radius: var(--radius); padding: .9rem 1rem; border-inline-start: 1.5px dashed var(--soft); }
.label { font-weight: 600; }
.deeds { display: flex; flex-wrap: wrap; gap: .4rem; }
.source > summary { color: var(--soft); font-size: .9375rem; padding-block: .35rem; min-height: 2rem; }
.source dl { display: grid; gap: .1rem; font-size: .9375rem; }
.source dt { font-weight: 600; margin-block-start: .3rem; }
.tick { display: flex; gap: .6rem; align-items: start; padding-block: .5rem; cursor: pointer; font-weight: 500 !important; }
.tick input { margin-block-start: .15rem; }
.ack { border-block-start: 1.5px dashed var(--thread); padding-block-start: .3rem; align-self: end; }
.scope { font-size: .9375rem; color: var(--soft); max-inline-size: 56rem; }
.notices { display: grid; gap: .4rem; font-size: .9375rem; color: var(--soft); max-inline-size: 56rem; }
.also { display: grid; gap: .5rem; }
.maker address { font-style: normal; display: grid; }
.maker, .leaflet, .held { display: grid; gap: .35rem; max-inline-size: 60rem; }
.leaflet li { padding-inline-start: 1.2rem; position: relative; padding-block: .1rem; font-size: .9375rem; }
.leaflet li::before { content: ""; position: absolute; inset-inline-start: 0; inset-block-start: .8em; inline-size: .7rem; block-size: 1.5px; background: var(--soft); }
.clock { font: 500 1.3rem var(--heading); font-variant-numeric: tabular-nums; }
.refused { font-weight: 600; }
.share { display: grid; gap: .5rem; justify-items: start; }
.speechless { padding: 1rem; }

.bar { display: none; }
@media (min-height: 30rem) {
  .bar { position: sticky; inset-block-end: 0; z-index: 1; display: flex; gap: .75rem; align-items: center; justify-content: space-between; min-height: 3.5rem; margin-inline: calc(-1 * clamp(.75rem, 3cqi, 2rem)); padding: .4rem clamp(.75rem, 3cqi, 2rem); background: var(--stitch) 0 0 / 100% 1.5px no-repeat, var(--card); }
}
.bar-total { font: 500 1.5rem var(--heading); font-variant-numeric: lining-nums tabular-nums; white-space: nowrap; }
.bar-arrives { text-wrap: balance; font-size: .875rem; line-height: 1.25; text-align: end; }

@container (min-width: 56rem) {
  .columns { grid-template-columns: minmax(0, 1.55fr) minmax(20rem, 1fr); gap: clamp(1.5rem, 4cqi, 3.5rem); }
  .side { position: relative; }
  .bar { display: none; }
}
@media (min-height: 44rem) { @container (min-width: 56rem) { .answer { position: sticky; inset-block-start: 1rem; } } }
@media (min-height: 38rem) {
  /* the close look stays in sight while cloths are pressed: only what is above it scrolls away */
  @container (max-width: 56rem) {
    .drawing { grid-template-rows: 3.25rem 1.75rem auto; gap: 0; position: sticky; inset-block-start: -5rem; z-index: 1; background: var(--paper); padding-block-end: .25rem; }
    .stage { order: 1; }
    button, input, select { scroll-margin-block-start: 14rem; }
  }
}
@container (max-width: 24rem) {
  .measure .cards { grid-template-columns: minmax(0, 1fr); }
  .measure .card { grid-template-columns: auto 1fr 6.5rem; align-items: center; }
  .measure .card svg { grid-column: 3; }
}
@media (prefers-reduced-motion: no-preference) {
  .card, .cloth, .near, .price { transition: opacity .15s, border-color .15s; }
}
@media (forced-colors: active) {
  .card:has(:checked), .cloth[aria-pressed=true] { outline: 3px solid Highlight; }
  .swatch, .near, .far { forced-color-adjust: none; }
}
@media print {
  .bar, .along, .share, .deeds, button:not(.cloth) { display: none !important; }
  .drawing, .answer { position: static !important; }
}
`;

let made = null;

/** The sheet, made once for all elements of a page. */
export function sheet() {
  if (!made) {
    made = new CSSStyleSheet();
    made.replaceSync(CSS);
  }
  return made;
}
