"""Trains the recogniser on generated lines, as they come, each time with other wear; while there is no new file, older ones are used again."""
import argparse, math, os, time
import numpy as np
import torch
import torch.nn.functional as F
from graph import Graph
from wear import worn

HEIGHT, SHORTEST = 48, 320


def read(path):
    pixels, at, lines = np.fromfile(path + ".bin", np.uint8), 0, []
    for line in open(path + ".txt", encoding="utf-8").read().rstrip("\n").split("\n"):
        width, text = line.split("\t", 1)
        size = HEIGHT * int(width)
        lines.append((pixels[at:at + size].reshape(HEIGHT, int(width)), text))
        at += size
    return lines


def batch_of(lines, class_of):
    width = max(SHORTEST, *(line.shape[1] for line, _ in lines))
    x = torch.zeros(len(lines), 3, HEIGHT, width).contiguous(memory_format=torch.channels_last)
    for at, (line, _) in enumerate(lines):
        x[at, :, :, :line.shape[1]] = torch.from_numpy(line).float() / 127.5 - 1
    texts = [[class_of[c] for c in text] for _, text in lines]
    return x, texts


def batches(lines, size, class_of, longest):
    """Lines of about the same width together. A line whose text needs more frames than it has is left out."""
    def fits(line, text):
        need = len(text) + sum(a == b for a, b in zip(text, text[1:]))
        return line.shape[1] <= longest and need <= line.shape[1] // 8 and all(c in class_of for c in text)
    lines = sorted((l for l in lines if fits(*l)), key=lambda l: max(SHORTEST, l[0].shape[1]))
    parts, at = [], 0
    while at < len(lines):
        # As many pixels in each.
        count = max(4, int(size * SHORTEST / max(SHORTEST, lines[min(at + size, len(lines)) - 1][0].shape[1])))
        parts.append(lines[at:at + count])
        at += count
    return parts


def loss_of(model, lines, class_of, frozen):
    x, texts = batch_of(lines, class_of)
    chances = model(x, frozen).log_softmax(2).transpose(0, 1)
    # A line that others are longer than is followed by nothing; so it is in use.
    frames = torch.full((len(texts),), chances.shape[0], dtype=torch.long)
    lengths = torch.tensor([len(t) for t in texts])
    each = F.ctc_loss(chances, torch.tensor(sum(texts, [])), frames, lengths, 0, "none", True)
    return (each / lengths.clamp(min=1)).mean(), chances


def read_text(chances, classes):
    best = chances.argmax(2).transpose(0, 1)
    return ["".join(classes[c] for c, before in zip(line, [0] + line[:-1]) if c != before and c) for line in best.tolist()]


def main():
    a = argparse.ArgumentParser()
    a.add_argument("model"); a.add_argument("characters"); a.add_argument("lines"); a.add_argument("target")
    a.add_argument("--test", default="900"); a.add_argument("--frozen", type=int, default=0)
    a.add_argument("--batch", type=int, default=16); a.add_argument("--rate", type=float, default=4e-4)
    a.add_argument("--backbone", type=float, default=0.5); a.add_argument("--seconds", type=float, default=2400)
    a.add_argument("--longest", type=int, default=640)
    a.add_argument("--quiet", action="store_true")
    o = a.parse_args()
    torch.set_num_threads(1); torch.manual_seed(1); rng = np.random.default_rng(1)
    classes = ["", *open(o.characters, encoding="utf-8").read().rstrip("\n").split("\n"), " "]
    class_of = {c: at for at, c in enumerate(classes) if at}
    model = Graph(o.model)
    weights = model.trained(o.frozen)
    # A third faster than plane by plane.
    for weight in model.weights.values():
        if weight.dim() == 4:
            weight.data = weight.data.contiguous(memory_format=torch.channels_last)
    neck = {name for step in model.steps[88:] for name in step[1]}
    # The rate of each weight is a share of its size: folding has made sizes differ a hundredfold.
    groups = [{"params": [w], "much": max(float(w.pow(2).mean().sqrt()), 1e-3) * (1.0 if n in neck else o.backbone)}
              for n, w in weights.items()]
    adam = torch.optim.AdamW(groups, lr=o.rate, betas=(0.9, 0.98), weight_decay=0.0)
    average = {n: w.detach().clone() for n, w in weights.items()}
    test = read(os.path.join(o.lines, o.test))
    start, step, seen, recent, queue, used = time.time(), 0, 0, [], [], {}
    # The same wear each time.
    test_rng = np.random.default_rng(2)
    tests = {"plain": test, "worn": [(worn(line, test_rng), text) for line, text in test]}

    def judge():
        said = []
        for name, lines in tests.items():
            right = total = loss = 0
            with torch.no_grad():
                for part in batches(lines, 16, class_of, o.longest):
                    each, chances = loss_of(model, part, class_of, 0)
                    right += sum(r.replace(" ", "") == t.replace(" ", "") for r, (_, t) in zip(read_text(chances, classes), part))
                    total += len(part); loss += float(each) * len(part)
            said.append(f"{name} loss {loss / total:.4f}, right {right} of {total}")
        return "; ".join(said)

    def next_file():
        """Of those that were used least often the latest."""
        there = {int(name[:-4]) for name in os.listdir(o.lines) if name.endswith(".bin")} - {int(o.test)}
        return min(there, key=lambda number: (used.get(number, 0), -number), default=None)

    def swap():
        for n, w in weights.items():
            kept = w.data.clone(); w.data.copy_(average[n]); average[n] = kept

    print("before:", judge(), flush=True) if not o.quiet else None
    while time.time() - start < o.seconds and not os.path.exists("stop"):
        if not queue:
            number = next_file()
            if number is None:
                time.sleep(1); continue
            queue = batches(read(os.path.join(o.lines, str(number))), o.batch, class_of, o.longest)
            rng.shuffle(queue)
            used[number] = used.get(number, 0) + 1
        lines = [(worn(line, rng), text) for line, text in queue.pop()]
        part = (time.time() - start) / o.seconds
        rate = o.rate * min(1, (step + 1) / 40) * (0.03 + 0.97 * 0.5 * (1 + math.cos(math.pi * min(1, part))))
        for g in adam.param_groups:
            g["lr"] = rate * g["much"]
        loss, _ = loss_of(model, lines, class_of, o.frozen)
        adam.zero_grad(); loss.backward()
        torch.nn.utils.clip_grad_norm_(list(weights.values()), 5.0)
        adam.step()
        step += 1; seen += len(lines); recent.append(float(loss))
        hold = min(0.99, step / (step + 10))
        for n, w in weights.items():
            average[n].mul_(hold).add_(w.detach(), alpha=1 - hold)
        if step % 25 == 0:
            print(f"{time.time() - start:.0f} s, step {step}, {seen} lines, {len(used)} files, loss {np.mean(recent):.4f}", flush=True)
            recent = []
        if step % 150 == 0:
            swap(); print("average:", judge(), flush=True); model.save(o.target); swap()
    swap(); print("at last:", judge(), f"{seen} lines, {time.time() - start:.0f} s, {time.process_time():.0f} s of processor time", flush=True); model.save(o.target)


main()
