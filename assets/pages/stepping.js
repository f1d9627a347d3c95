// Steps through the turns of a cube: buttons under each picture, and the arrow keys for the one in use.
"use strict";

const pictures = JSON.parse(document.getElementById("pictures").textContent);
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const halfATurn = 300; // milliseconds
const speeds = document.querySelectorAll(".stepper select");
const steppers = new Map([...document.querySelectorAll(".stepper")].map((root) => [root, stepper(root)]));
document.documentElement.classList.add("steps");
let inUse = steppers.size === 1 ? [...steppers.values()][0] : null;

function stepper(root) {
  const stops = [...root.querySelectorAll(".said > div")], tiles = root.querySelectorAll(".turns li");
  const [back, play, next] = root.querySelectorAll("button");
  let image = root.querySelector("img"), at = 0, latest = 0, timer = 0;
  const first = image.src;

  function mark() {
    stops.forEach((stop, number) => stop.classList.toggle("now", number === at));
    tiles.forEach((tile, number) => {
      tile.classList.toggle("made", number < at);
      tile.classList.toggle("now", number === at);
    });
    back.setAttribute("aria-disabled", at === 0);
    next.setAttribute("aria-disabled", at === stops.length - 1);
    play.textContent = timer ? play.dataset.pause : play.dataset.play;
    root.dataset.at = at;
  }

  async function put(source, alt, asked) {
    const coming = new Image();
    coming.src = source;
    coming.alt = alt;
    await coming.decode();
    if (asked !== latest) return; // another step was asked for meanwhile
    image.replaceWith(coming);
    image = coming;
  }

  async function go(to) {
    if (to < 0 || to >= stops.length) return;
    const { halfway, alt } = stops[Math.min(at, to)].dataset, oneTurn = Math.abs(to - at) === 1;
    const asked = ++latest;
    at = to;
    mark();
    if (oneTurn && halfway && !calm.matches) {
      await put(pictures[halfway], alt, asked);
      await new Promise((shown) => setTimeout(shown, halfATurn / speeds[0].value));
    }
    await put(at ? pictures[stops[at].dataset.picture] : first, stops[at].dataset.alt, asked);
  }

  function pause() {
    clearTimeout(timer);
    timer = 0;
    mark();
  }

  function wait() {
    const seconds = stops[at].dataset.seconds / speeds[0].value;
    timer = setTimeout(async () => {
      await go(at + 1);
      if (timer && at < stops.length - 1) wait();
      else pause();
    }, 1000 * seconds);
    mark();
  }

  const self = {
    pause,
    step(by) {
      pause();
      inUse = self;
      return go(at + by);
    },
    start() {
      pause();
      return go(0);
    },
    async playOrPause() {
      inUse = self;
      if (timer) return pause();
      for (const other of steppers.values()) other.pause();
      if (at === stops.length - 1) await go(0);
      wait();
    },
  };
  back.addEventListener("click", () => self.step(-1));
  next.addEventListener("click", () => self.step(1));
  play.addEventListener("click", self.playOrPause);
  root.querySelector(".controls").hidden = false;
  mark();
  return self;
}

for (const chosen of speeds) {
  chosen.addEventListener("change", () => speeds.forEach((each) => (each.value = chosen.value)));
}
document.addEventListener("keydown", (event) => {
  const by = { ArrowLeft: -1, ArrowRight: 1 }[event.key];
  const other = event.altKey || event.ctrlKey || event.metaKey || event.shiftKey;
  const used = steppers.get(event.target.closest(".stepper")) ?? inUse;
  if (!by || other || !used || event.target.matches("select")) return;
  event.preventDefault();
  used.step(by);
});
// Paper shows every case from its start.
addEventListener("beforeprint", () => steppers.forEach((each) => each.start()));
