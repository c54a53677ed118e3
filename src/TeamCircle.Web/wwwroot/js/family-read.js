// Reads a part of the page aloud with a voice of this machine. Where the browser has none for the part's language the button stays away:
// a voice that speaks elsewhere would be sent what is written here.
const speech = window.speechSynthesis;
const buttons = [...document.querySelectorAll("button.read")];
const words = new Map(buttons.map(button => [button, [...button.childNodes]]));
let speaking = null;

const languageOf = element => element.closest("[lang]").lang;
const voiceFor = language => speech.getVoices().find(voice => voice.localService && voice.lang.toLowerCase().startsWith(language));

// The smallest blocks that hold words, in reading order, without what is not shown and without buttons.
const kinds = "h2, h3, p, li, dt, dd, th, td, .lead, .what";
function blocks(part) {
  return [...part.querySelectorAll(kinds)].filter(block =>
    block.checkVisibility() && !block.querySelector(kinds) && !block.querySelector("button") && block.innerText.trim() !== "");
}

function end() {
  if (speaking === null) return;
  speaking.replaceChildren(...words.get(speaking));
  speaking = null;
  speech.cancel();
}

function begin(button) {
  end();
  speaking = button;
  button.textContent = button.dataset.stop;
  const said = blocks(button.closest("section")).map(block => {
    const one = new SpeechSynthesisUtterance(block.innerText);
    one.lang = languageOf(block);
    one.voice = voiceFor(one.lang) ?? null;
    return one;
  }).filter(one => one.voice !== null);
  said.at(-1).onend = () => { if (speaking === button) end(); };
  said.forEach(one => speech.speak(one));
}

function offer() {
  for (const button of buttons) button.hidden = !voiceFor(languageOf(button));
}

if (speech) {
  for (const button of buttons) button.addEventListener("click", () => speaking === button ? end() : begin(button));
  speech.addEventListener("voiceschanged", offer);
  window.addEventListener("pagehide", end);
  offer();
}
