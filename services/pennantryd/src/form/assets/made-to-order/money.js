/** Money: whole minor units, never a float. */

/**
 * An amount as a decimal, by moving the point in its digits.
 *
 * @param {string} minorUnits a whole number, such as "9945"
 * @param {number} minorDigits how many digits are minor
 * @returns {string} such as "99.45"
 */
export function decimal(minorUnits, minorDigits) {
  const amount = BigInt(minorUnits);
  const digits = (amount < 0n ? -amount : amount).toString().padStart(minorDigits + 1, "0");
  const whole = digits.slice(0, digits.length - minorDigits);
  const part = digits.slice(digits.length - minorDigits);
  return `${amount < 0n ? "-" : ""}${whole}${part === "" ? "" : `.${part}`}`;
}

/**
 * An amount as the buyer's language writes it.
 *
 * @param {{currencyCode: string, minorUnits: string}} money
 * @param {number} minorDigits
 * @param {string} [locale]
 */
export function written(money, minorDigits, locale) {
  const format = new Intl.NumberFormat(locale, {
    style: "currency",
    currency: money.currencyCode,
    minimumFractionDigits: minorDigits,
    maximumFractionDigits: minorDigits,
  });
  return format.format(decimal(money.minorUnits, minorDigits));
}
