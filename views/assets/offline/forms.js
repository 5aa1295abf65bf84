// After a form was refused the person stands at the first thing to mend, and sees it; after any other answer, at the answer.
// A new household's time zone is proposed from the clock of this device; every form works without this.

(() => {
  const seen = { block: 'center', inline: 'nearest' };
  const within = (element) => {
    const { top, bottom } = element.getBoundingClientRect();
    return top >= 0 && bottom <= innerHeight;
  };

  /** What was refused first, in the order of the page; what belongs to a form as a whole comes after its fields. */
  const firstProblem = () => {
    const main = document.getElementById('main');
    const told = main?.querySelector('.problem');
    const group = told?.closest('.field, li, fieldset') ?? told?.parentElement;
    const field =
      group?.querySelector('[aria-invalid="true"], input:not([type="hidden"]), select, textarea') ??
      main?.querySelector('[aria-invalid="true"]') ??
      null;
    if (field !== null) return { group: group ?? field, field };
    const whole = main?.querySelector('form > .banner-problem, #message .banner-problem') ?? null;
    return whole === null ? null : { group: whole, field: whole };
  };

  const standAtProblem = () => {
    const first = firstProblem();
    if (first === null) return false;
    const { group, field } = first;
    for (let fold = group.closest('details'); fold !== null; fold = fold.parentElement.closest('details'))
      fold.open = true;
    if (field.matches('p')) field.tabIndex = -1;
    field.focus({ preventScroll: true });
    group.scrollIntoView(seen);
    return true;
  };

  const proposeZone = () => {
    const choice = document.querySelector('select[data-proposes="time-zone"]');
    const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
    if (choice === null || choice.value !== '' || zone === undefined) return;
    if (choice.form.querySelector('.problem') !== null) return;
    if (![...choice.options].some(({ value }) => value === zone)) choice.add(new Option(zone, zone));
    choice.value = zone;
  };

  /** A link to a part that is one row on a phone opens it. */
  const openLinked = () => {
    const linked =
      location.hash.length > 1 ? document.getElementById(decodeURIComponent(location.hash.slice(1))) : null;
    const fold = linked?.querySelector(':scope > .part-body > .phone-fold') ?? null;
    if (fold !== null) fold.open = true;
  };

  openLinked();
  addEventListener('hashchange', openLinked);
  standAtProblem();
  proposeZone();

  document.addEventListener('htmx:after:swap', ({ detail }) => {
    const { ctx } = detail;
    if ((ctx.response?.raw?.status ?? ctx.response?.status ?? 200) >= 400) {
      standAtProblem();
      return;
    }
    const said = document.querySelector(
      `${ctx.sourceElement?.getAttribute?.('hx-target') ?? '#message'} .banner`,
    );
    if (said !== null && !within(said)) said.scrollIntoView({ block: 'nearest' });
  });
})();
