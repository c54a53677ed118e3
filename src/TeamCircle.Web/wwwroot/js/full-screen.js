// A button that shows one part of the page on the whole screen. Where the browser can't, the button stays away and the page is as good.
const button = document.querySelector("button[data-full]");
const part = button && document.getElementById(button.dataset.full);

if (part?.requestFullscreen && document.fullscreenEnabled) {
  button.hidden = false;
  button.addEventListener("click", () => part.requestFullscreen());
}
