// What the buttons beside the slides of a question do; the part of the page is made by carried.js.

const [fragment, answeredAt, inShort, effective = new URLSearchParams(fragment)] = caseOf(new URL("..", location).pathname);
const given = [...effective].map(([field, value]) => [field, value]);
const [slidesButton, briefButton] = all("button", taking);
const pack = document.querySelector("main a[href$='/slides.pptx']");
let brought = null;

async function bytesOfPack() {
  if (brought) return brought;
  const answer = await fetch(pack.href);
  if (!answer.ok) throw new Error(answer.status);
  return (brought = new Uint8Array(await answer.arrayBuffer()));
}

// Whoever waits is told for what; whoever gets nothing is told why.
async function made(make) {
  let bytes;
  says.replaceChildren("One moment: the slides are being brought.");
  try {
    bytes = await bytesOfPack();
  } catch (absent) {
    says.replaceChildren("The slides need the network once: they are not kept on this device. With a connection, tap again.");
    return;
  }
  try {
    await make(await unzipped(bytes));
  } catch (broken) {
    says.replaceChildren("No slides for this case could be made here. The link below has those of all answers.");
    throw broken;
  }
}

async function handed(shipped) {
  const name = `${new URL("..", location).pathname.split("/").at(-2)}-this-case.pptx`;
  const type = "application/vnd.openxmlformats-officedocument.presentationml.presentation";
  const file = new File([await slidesOf(shipped, given)], name, { type });
  const link = element("a", "", { href: URL.createObjectURL(file), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  const of = given.length ? "They hold what stands for your answers." : "Nothing was answered: they hold what stands for every case.";
  says.replaceChildren(`The slides are among your downloads, made on this device. ${of} `);
  if (!navigator.canShare?.({ files: [file] })) return;
  const share = element("button", "Send the file on", { type: "button" });
  // Whoever changes their mind has the file all the same.
  share.onclick = () => navigator.share({ files: [file] }).catch(() => {});
  says.append(share);
}

function printed(shipped) {
  const said = fragment
    ? element("p", ["This case, answered at ", dateOf(answeredAt), ": ", inWords(inShort)])
    : element("p", "Nothing was answered: what stands for every case.");
  document.getElementById("brief")?.remove();
  const sheet = briefOf(shipped, document.querySelector(".trail a").textContent, given, said);
  taking.parentElement.append(sheet);
  says.replaceChildren("The brief stands below: one page on paper, two where many answers are given.");
  sheet.classList.add("only");
  body.classList.add("alone");
  print();
  sheet.classList.remove("only");
  body.classList.remove("alone");
}

slidesButton.onclick = () => made(handed);
briefButton.onclick = () => made(printed);
wanted.click();
