// What scripts say, in the language of the page: English words are looked up among those that a site in another language
// writes before this script. Every other script that says something asks here, and so does the worker.
globalThis.lintarsia = (() => {
  "use strict";
  const { language = "en", words = {}, counts = {}, forms = {} } = globalThis.lintarsiaWords ?? {};
  const rules = new Intl.PluralRules(language);
  const filled = (text, values) => text.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
  const capital = (text) => text.slice(0, 1).toUpperCase() + text.slice(1);

  /** A phrase as the page's language has it, with `values` in its braces. */
  const phrase = (text, values = {}) => filled(words[text] ?? text, values);

  /** `one` or `many`, as the language has it of such a number, which is `{n}` in both. */
  function counted(number, one, many, values = {}) {
    const said = counts[one]?.[forms[rules.select(number)] ?? 0] ?? (number === 1 ? one : many);
    return filled(said, { n: language === "en" ? number : number.toLocaleString(language), ...values });
  }

  /** A number with so many places, as the language writes it. */
  const figure = (number, places) => number.toLocaleString(language, { minimumFractionDigits: places, maximumFractionDigits: places });

  /** What a row is called where a sentence may have it, small and with a capital; `word` is `row` or `round`. */
  function rowForms(word) {
    const [one, many, the] = word === "round" ? [phrase("round"), phrase("rounds"), phrase("the round")] : [phrase("row"), phrase("rows"), phrase("the row")];
    return { word: one, words: many, the_word: the, Word: capital(one), Words: capital(many), The_word: capital(the) };
  }

  return { phrase, counted, figure, capital, rowForms, language };
})();
