/** The answer in words: price, arrival, count, and what else the shop says of it. */

import { el, renew, say } from "./dom.js";
import { imperialWords, metricWords, micrometres } from "./lengths.js";

export class Answer {
  #form;

  constructor(form) {
    this.#form = form;
    const { text } = form;
    this.total = el("p", { class: "total" }, "–");
    this.beside = el("p", { class: "beside" }, text.get("answer.waiting"));
    this.arrives = el("p", { class: "arrives" });
    this.count = el("div", { class: "count" });
    this.day = el("div", { class: "day" });
    this.lines = el("div", { class: "lines" });
    this.also = el("div", { class: "also" });
    this.price = el("div", { class: "price" }, this.total, this.beside, this.arrives);
    this.bar = el("div", { class: "bar", "aria-hidden": "true" }, el("span", { class: "bar-total" }, "–"), el("span", { class: "bar-arrives" }));
  }

  /** @param {object} quote */
  show(quote, notices) {
    const { text } = this.#form;
    const { price, dates } = quote;
    const total = text.money(price.total, price.minorDigits);
    say(this.total, total);
    say(this.bar.firstChild, total);
    say(this.beside, [text.get(price.tax ? "answer.taxIn" : "answer.noTax", { tax: price.tax?.name }), text.get("answer.perMetre", { money: text.money(price.perMetre, price.minorDigits) })].join(" · "));
    const arrival = this.#arrival(dates, false);
    say(this.arrives, [arrival, this.#shelf(quote.shelf)].filter(Boolean).join(" "));
    say(this.bar.lastChild, this.#arrival(dates, true));
    renew(this.count, [quote.layout.pennantCount, quote.layout.alternatives, quote.layout.gapMm, this.#form.choices.count], () => this.#count(quote));
    renew(this.day, [dates, quote.understood.wantedDate, quote.understood.rush, quote.understood.service], () => this.#day(quote));
    renew(this.lines, price, () => this.#lines(price));
    renew(this.also, [notices, quote.expireTime], () => this.#also(quote, notices));
  }

  /** One line for carts and mails. The lettering is not in it: it may be a child's name. */
  summary(quote) {
    const { text, catalogue } = this.#form;
    const { layout, understood, price } = quote;
    const names = understood.colourOrder.fabricCodes.map((code) => catalogue.fabrics.find((fabric) => fabric.code === code)?.name ?? code);
    return [
      text.get("summary.pennants", { count: layout.pennantCount }), text.get(`shape.${understood.pennant.shape}`),
      this.#said(layout.overallMm), [...new Set(names)].slice(0, 26).join(", "),
      understood.quantity > 1 ? text.get("summary.strings", { count: understood.quantity }) : "",
      text.money(price.total, price.minorDigits),
    ].filter(Boolean).join("; ");
  }

  /** What the drawing shows, in words. */
  caption(quote) {
    const { text } = this.#form;
    const { layout } = quote;
    const parts = [text.get("summary.pennants", { count: layout.pennantCount }), this.#gap(layout.gapMm),
      text.get("caption.flagged", { length: this.#said(layout.flaggedMm) }), text.get("caption.overall", { length: this.#said(layout.overallMm) })];
    if (layout.hang) parts.push(text.get("caption.lowest", { length: this.#said(layout.hang.lowestTipMm) }));
    return parts.join(" · ");
  }

  /** For the live region: short, and the same for the same answer. */
  spoken(quote) {
    const { text } = this.#form;
    const sum = `${text.get("summary.pennants", { count: quote.layout.pennantCount })}, ${text.money(quote.price.total, quote.price.minorDigits)}.`;
    return `${sum} ${this.#arrival(quote.dates, false)} ${text.get(`outcome.${quote.child.outcome}`)}.`;
  }

  /** In the buyer's own way of measuring, to the millimetre: enough to look at. */
  #said(mm) {
    const um = micrometres(Math.round(mm));
    return this.#form.imperial ? imperialWords(um).text : metricWords(um, this.#form.text.locale);
  }

  #gap(mm) {
    const { text } = this.#form;
    const size = text.number.format(Math.abs(mm));
    return text.get(mm > 0 ? "caption.gap" : mm < 0 ? "caption.overlap" : "caption.touch", { mm: size });
  }

  #arrival(dates, short) {
    const { text } = this.#form;
    if (!dates) return text.get("arrives.unknown");
    if (!dates.arriveTo) return text.get("arrives.leaves", { day: text.date(dates.leaveDate, short) });
    const words = dates.arriveFrom && dates.arriveFrom !== dates.arriveTo
      ? text.get("arrives.between", { from: text.date(dates.arriveFrom, short), to: text.date(dates.arriveTo, short) })
      : text.get("arrives.on", { day: text.date(dates.arriveTo, short) });
    return dates.estimated ? `${words} ${text.get("arrives.estimated")}` : words;
  }

  #shelf(shelf) {
    const { text } = this.#form;
    if (!shelf) return text.get("shelf.unknown");
    if (shelf.available) return text.get("shelf.there");
    return shelf.expectedDate ? text.get("shelf.expected", { day: text.date(shelf.expectedDate) }) : text.get("shelf.missing");
  }

  /** One fewer and one more, where they can be had. The row is there all the same: nothing jumps. */
  #count(quote) {
    const form = this.#form;
    const { text } = form;
    const { layout, understood } = quote;
    const leftover = understood.fit?.leftover ?? "";
    const step = (other, key) => {
      const found = layout.alternatives.find(({ pennantCount }) => pennantCount === layout.pennantCount + other);
      const words = found ? text.get(`count.${key}`, { pennants: text.get("summary.pennants", { count: found.pennantCount }), gap: this.#gap(found.gapMm) }) : text.get(`count.no.${key}`);
      return el("button", { type: "button", class: "step", "data-key": key, "aria-label": words, "aria-disabled": found ? null : "true", title: words,
        on: { click: () => found && form.set({ count: found.pennantCount, leftover }) } }, el("span", { "aria-hidden": "true" }, other < 0 ? "−" : "+"));
    };
    return [step(-1, "fewer"),
      el("p", {}, el("strong", {}, text.get("summary.pennants", { count: layout.pennantCount })), el("small", {}, this.#gap(layout.gapMm))),
      step(1, "more"),
      form.choices.count === null ? null : el("button", { type: "button", class: "link", "data-key": "fit", on: { click: () => form.set({ count: null, leftover: "" }) } }, text.get("count.fit"))];
  }

  #day(quote) {
    const form = this.#form;
    const { text } = form;
    const { dates, understood, price } = quote;
    const chosen = [understood.rush ? text.get("day.rushed") : "", understood.service ? text.get("day.by", { service: form.serviceName(understood.service) }) : ""].filter(Boolean);
    const undo = chosen.length === 0 ? null : el("p", {}, `${chosen.join(", ")} `, el("button", { type: "button", class: "link", "data-key": "plain-day", on: { click: () => form.set({ rush: false, service: "" }) } }, text.get("day.undo")));
    if (!understood.wantedDate) return [undo];
    const wanted = text.date(understood.wantedDate);
    if (!dates || dates.wantedKept === undefined) return [el("p", {}, text.get("day.open", { day: wanted })), undo];
    if (dates.wantedKept) {
      const until = dates.orderByDate ? text.get(dates.orderByEstimated ? "day.orderByEstimated" : "day.orderBy", { day: text.date(dates.orderByDate) }) : "";
      return [el("p", {}, `${text.get("day.kept", { day: wanted })} ${until}`), undo];
    }
    const ways = dates.ways.map((way) => el("li", {}, el("button", {
      type: "button", class: "way", "data-key": way.kind, on: { click: () => form.set(changes(way, understood)) },
    }, el("strong", {}, text.get(`way.${way.kind}`, { pennants: text.get("summary.pennants", { count: way.pennantCount }), service: form.serviceName(way.serviceCode), construction: text.get(`construction.${way.construction}`) })),
    el("span", {}, text.get("way.for", { day: text.date(way.arriveTo), money: text.money(way.total, price.minorDigits) })))));
    return [el("p", {}, text.get(ways.length > 0 ? "day.missed" : "day.missedOutright", { day: wanted })), ways.length > 0 ? el("ul", { class: "ways" }, ways) : null, undo];
  }

  #lines(price) {
    const { text } = this.#form;
    const money = (amount) => text.money(amount, price.minorDigits);
    const row = (words, amount, className = "", lang = undefined) => el("tr", { class: className }, el("th", { scope: "row", lang }, words), el("td", {}, money(amount)));
    const { tax, withdrawal } = price;
    return [
      el("table", {}, el("caption", {}, text.get("lines.caption")), el("tbody", {},
        price.lines.map((line) => row(text.has(`line.${line.code}`) ? text.get(`line.${line.code}`) : line.text, line.amount, "", text.has(`line.${line.code}`) ? undefined : "en")),
        row(text.get("lines.total"), price.total, "sum"),
        tax ? row(text.get("lines.tax", { name: tax.name, rate: text.exact.format(tax.ratePercent) }), tax.included, "fine") : "",
        tax ? row(text.get("lines.net"), tax.net, "fine") : "",
        row(text.get("lines.perMetre"), price.perMetre, "fine"))),
      price.breaks.length === 0 ? null : el("p", { class: "fine" }, text.get("lines.breaks"), " ",
        text.list.format(price.breaks.map(({ quantity, offPercent }) => text.get("lines.break", { quantity, percent: text.exact.format(offPercent) })))),
      withdrawal ? el("p", { class: "withdrawal" }, el("strong", {}, text.get(`withdrawal.${withdrawal.right}`)), " ", el("span", { lang: "en" }, withdrawal.reason), " ", el("small", { lang: "en" }, withdrawal.source)) : null,
    ];
  }

  #also(quote, notices) {
    const { text } = this.#form;
    const ends = quote.expireTime ? text.get("answer.until", { day: text.date(lastDay(quote.expireTime)) }) : "";
    return [
      notices.length === 0 ? null : el("ul", { class: "notices", lang: "en" }, notices.map(({ message }) => el("li", {}, message))),
      el("p", { class: "fine" }, ends),
    ];
  }
}

/**
 * The last day on which a price holds that ends at a midnight of the shop's. Half a day before
 * it is that day in UTC, too, from twelve hours west of it to twelve hours east.
 */
export function lastDay(instant) {
  return new Date(Date.parse(instant) - 43_200_000).toISOString().slice(0, 10);
}

/** What a way to keep the day changes, and that alone. */
function changes(way, understood) {
  switch (way.kind) {
    case "WAY_KIND_RUSH": return { rush: true };
    case "WAY_KIND_FEWER_PENNANTS": return { count: way.pennantCount, leftover: understood.fit?.leftover ?? "" };
    case "WAY_KIND_PLAINER": return { construction: way.construction };
    case "WAY_KIND_OTHER_SERVICE": return { service: way.serviceCode };
    default: return {};
  }
}
