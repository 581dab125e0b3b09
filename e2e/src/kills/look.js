// What the step in sight shows of its record, and what a finger could touch there. Given `arguments[0]`, the steps to go
// to one after the other: the look at each of them, in place of the one at hand.
const later = () => new Promise(done => setTimeout(done, 0));
const step = () => decodeURIComponent(location.hash.replace(/^#\/step\//, ''));

const shown = main => {
    const all = (selector, of) => [...main.querySelectorAll(selector)].map(of);
    const counts = all('[data-count]', e => [e.dataset.test, Number(e.dataset.count)]);
    // Names of radio buttons are made for one showing of the page; what they stand for is not.
    const named = e => `${e.closest('fieldset')?.dataset.test}=${e.closest('label')?.dataset.test}`;
    return {
        size: counts.reduce((sum, [test, count]) => sum + (test.startsWith('strip-') ? 0 : count), 0),
        what: JSON.stringify([
            counts,
            all('.dots i', e => `${e.className} ${e.dataset.made}`),
            all('.series .remarks [aria-pressed=true]', e => e.dataset.test),
            all('.fields input:checked', named),
            all('.fields input[type=text], .fields textarea, .fields input[type=date]', e => `${e.id}=${e.value}`),
            all('[data-test=trials-so-far] li', e => e.textContent),
            all('.rating output', e => e.textContent),
            all('.cell', e => e.textContent.trim()),
        ]),
    };
};

const WEIGHTS = [
    ['.pads button', 10, 'pad'],
    ['.series .remarks button', 3, 'remark'],
    ['.grades button', 6, 'grade'],
    ['.cell', 1, 'cell'],
    ['[data-test=another-trial]', 8, 'trial'],
    ['[data-test=nearer], [data-test=farther]', 3, 'trial'],
    ['[data-test=ruler]', 8, 'slide'],
    ['.trial-choices label', 2, 'trial'],
    ['.rating input', 4, 'slide'],
    ['footer [data-test=undo]', 7, 'undo'],
    ['footer [data-test=usual]', 8, 'usual'],
    ['footer [data-test=next]', 4, 'move'],
    ['footer [data-test=no-change]', 5, 'fill-and-move'],
    ['footer [data-test=skip]', 1, 'open'],
    ['[data-test=skip-panel] [data-test=reason]', 20, 'move'],
    ['header [data-test=back]', 1, 'move'],
];

const touchable = main => {
    const slot = main.dataset.slot;
    // Before the first task there is only a way back to here: an answer there could put the stop in front of everything.
    const wanted = ([, , kind]) => slot || (['frame', 'safety'].includes(main.dataset.screen) && kind === 'move');
    return WEIGHTS.filter(wanted).flatMap(([selector, weight, kind]) =>
        [...main.querySelectorAll(selector)]
            .filter(e => !e.disabled && e.getClientRects().length > 0)
            .map(element => ({ weight, kind, element })));
};

const look = () => {
    const main = document.querySelector('main');
    const slot = main?.dataset.slot ?? null;
    return {
        step: step(),
        screen: main?.dataset.screen ?? null,
        slot,
        ...(slot ? shown(main) : { size: 0, what: '' }),
        touchable: main ? touchable(main) : [],
        writing: writing(),
    };
};

// How long the oldest write that the browser has not finished is under way, and the longest one so far.
const writing = () => {
    const writes = window.harnessWrites ?? [];
    const open = writes.filter(write => write.to === null).map(write => performance.now() - write.from);
    const ended = writes.filter(write => write.to !== null).map(write => write.to - write.from);
    return { open: Math.max(0, ...open), longest: Math.max(0, ...open, ...ended) };
};

const wanted = arguments[0];
if (!wanted) return later().then(look);
return (async () => {
    const looks = [];
    for (const slot of wanted) {
        location.hash = `#/step/${slot}`;
        for (let tries = 0; tries < 200 && document.querySelector('main')?.dataset.slot !== slot; tries++) {
            await new Promise(done => setTimeout(done, 10));
        }
        await later();
        const { touchable, ...rest } = look();
        looks.push(rest);
    }
    return looks;
})();
