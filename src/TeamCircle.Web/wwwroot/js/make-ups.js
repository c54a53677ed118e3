// While a search is going on, says how far it is and shows the result when it is over. Without this script
// "See how far it is" does the same.
const status = document.querySelector("[data-search]");

async function look() {
  const answer = await fetch(status.dataset.search);
  if (!answer.ok) return;
  const { words, isOver } = await answer.json();
  if (isOver) {
    location.reload();
    return;
  }
  if (status.textContent !== words) status.textContent = words;
  setTimeout(look, 1000);
}

if (status) setTimeout(look, 1000);
