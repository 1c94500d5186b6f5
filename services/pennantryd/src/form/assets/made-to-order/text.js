/** Words by language, one file each, and the ways of writing numbers, dates and money. */

import { written } from "./money.js";

const OFFERED = ["en", "de"];

/**
 * The language to speak: what the page asks for, else what the page is in, else the browser's.
 * A page that says "en" leaves open whose English: the browser's own, if it is one.
 *
 * @param {(string|null|undefined)[]} wanted most wanted first
 * @returns {{language: string, locale: string}}
 */
export function choose(wanted) {
  for (const tag of wanted) {
    const language = tag?.toLowerCase().split(/[-_]/)[0];
    if (!OFFERED.includes(language)) continue;
    try {
      const nearer = wanted.find((other) => other?.toLowerCase().startsWith(`${tag.toLowerCase()}-`)) ?? tag;
      return { language, locale: new Intl.Locale(nearer.replace("_", "-")).toString() };
    } catch {
      return { language, locale: language };
    }
  }
  return { language: "en", locale: "en-GB" };
}

/** Words and ways of writing of one language. */
export class Text {
  /**
   * @param {Record<string, string>} words
   * @param {string} locale
   */
  constructor(words, locale) {
    this.words = words;
    this.locale = locale;
    this.plural = new Intl.PluralRules(locale);
    this.number = new Intl.NumberFormat(locale, { maximumFractionDigits: 1 });
    this.exact = new Intl.NumberFormat(locale, { maximumFractionDigits: 3 });
    this.day = new Intl.DateTimeFormat(locale, { weekday: "long", day: "numeric", month: "long", timeZone: "UTC" });
    this.shortDay = new Intl.DateTimeFormat(locale, { weekday: "short", day: "numeric", month: "short", timeZone: "UTC" });
    this.dayOfYear = new Intl.DateTimeFormat(locale, { weekday: "long", day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });
    this.shortDayOfYear = new Intl.DateTimeFormat(locale, { day: "numeric", month: "short", year: "numeric", timeZone: "UTC" });
    this.list = new Intl.ListFormat(locale, { type: "conjunction" });
    this.point = new Intl.NumberFormat(locale).format(1.5).includes(",") ? "," : ".";
  }

  /**
   * A text with its values put in: "{name}". With `count` it is looked up by the plural
   * ("key.one", "key.other"). A key that is missing is shown, so that it is seen.
   *
   * @param {string} key
   * @param {Record<string, unknown>} [values]
   */
  get(key, values = {}) {
    const many = values.count === undefined ? undefined : this.words[`${key}.${this.plural.select(values.count)}`] ?? this.words[`${key}.other`];
    const words = many ?? this.words[key] ?? key;
    return words.replace(/\{(\w+)\}/g, (whole, name) => {
      const value = values[name];
      return value === undefined ? whole : typeof value === "number" ? this.number.format(value) : String(value);
    });
  }

  /** Whether there is such a text. */
  has(key) {
    return Object.hasOwn(this.words, key);
  }

  money(amount, digits) {
    return written(amount, digits, this.locale);
  }

  /**
   * A day, with its year where that is not this one.
   *
   * @param {string} iso a day such as "2026-12-04"
   * @param {boolean} [short]
   */
  date(iso, short = false) {
    const other = Number(iso.slice(0, 4)) !== new Date().getFullYear();
    const way = short ? (other ? this.shortDayOfYear : this.shortDay) : other ? this.dayOfYear : this.day;
    return way.format(new Date(`${iso}T12:00:00Z`));
  }

  country(code) {
    try {
      return new Intl.DisplayNames(this.locale, { type: "region" }).of(code) ?? code;
    } catch {
      return code;
    }
  }
}

/** Loads a chosen language from the folder at `base`. */
export async function load(base, chosen) {
  const answer = await fetch(new URL(`text/${chosen.language}.json`, base), { credentials: "omit" });
  if (!answer.ok) throw new Error(`text ${chosen.language}: ${answer.status}`);
  return new Text(await answer.json(), chosen.locale);
}
