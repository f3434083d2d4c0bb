"""Wear for lines to train with: each time a line is used, other kinds of it, of any strength. Neither `Soil` nor `Cover` of the tests is among them."""
import io
import numpy as np
from PIL import Image
from scipy import ndimage

HEIGHT = 48


def worn(line, rng):
    """The line, grey from 0 to 255, with none to four kinds of wear, and its contrast as the reader stretches it."""
    count = rng.choice(5, p=[0.25, 0.3, 0.27, 0.13, 0.05])
    if count == 0:
        return line
    x = line.astype(np.float32)
    # What is done to print comes first, then what is done to the label, to the light, and in the camera.
    for at in sorted(rng.choice(len(KINDS), count, replace=False)):
        x = np.clip(KINDS[at](x, float(rng.random()) ** 1.6, rng), 0, 255)
    low, high = np.quantile(x[::2, ::2], [0.02, 0.98])
    contrast = max(high - low, 24)
    return np.clip((x - (low + high - contrast) / 2) * 255 / contrast, 0, 255).astype(np.uint8)


def field(shape, size, rng):
    """Smooth noise from 0 to 1 with features of a size."""
    coarse = rng.random((int(shape[0] / size) + 3, int(shape[1] / size) + 3), dtype=np.float32)
    y, x = np.arange(shape[0]) / size + rng.random(), np.arange(shape[1]) / size + rng.random()
    top, left = y.astype(int), x.astype(int)
    dy, dx = (y - top)[:, None], (x - left)[None, :]
    rows = coarse[top] * (1 - dy) + coarse[top + 1] * dy
    return rows[:, left] * (1 - dx) + rows[:, left + 1] * dx


def paper_of(x):
    """Of the line's edges: there is little print."""
    return float(np.median(np.concatenate([x[:4].ravel(), x[-4:].ravel()])))


def signed(most, rng):
    return (rng.random() * 2 - 1) * most


def spread(low, high, rng):
    return low + (high - low) * rng.random()


def moved(x, dx, dy):
    """Each pixel from so far away."""
    rows, columns = np.mgrid[:x.shape[0], :x.shape[1]].astype(np.float32)
    return ndimage.map_coordinates(x, [rows + dy, columns + dx], order=1, mode="nearest")


# Print.

def crooked(x, much, rng):
    """Letters that are higher, lower, slanted, lighter: a line is cut where it has least ink."""
    paper = paper_of(x)
    ink = ndimage.gaussian_filter1d(np.abs(x - paper).mean(0), 1.5)
    pace, at, cuts = int(spread(14, 26, rng)), 0, [0]
    while at + pace < x.shape[1]:
        at = at + pace // 2 + int(np.argmin(ink[at + pace // 2:at + pace + pace // 2]))
        cuts.append(at)
    cuts.append(x.shape[1])
    result = x.copy()
    for left, right in zip(cuts, cuts[1:]):
        if right - left < 2:
            continue
        part = ndimage.shift(x[:, left:right], (signed(4 * much, rng), 0), order=1, mode="nearest")
        result[:, left:right] = paper + (part - paper) * (1 - 0.6 * much * rng.random())
    return result


def faded(x, much, rng):
    paper = paper_of(x)
    kept = np.clip((field(x.shape, spread(6, 50, rng), rng) - 0.55 * much) * 4, 0.12, 1)
    return paper + (x - paper) * kept


def dry(x, much, rng):
    """Ink that did not take: speckles of paper."""
    paper = paper_of(x)
    kept = np.clip((field(x.shape, spread(1.5, 4, rng), rng) - 0.45 * much) * 6, 0.1, 1)
    return paper + (x - paper) * kept


def smeared(x, much, rng):
    """Ink that was wiped to one side."""
    paper = paper_of(x)
    ink, hold = np.abs(x - paper), spread(0.5, 0.93, rng)
    sign = 1 if np.median(x) <= paper and (x - paper).sum() > 0 else -1
    way = ink if rng.random() < 0.5 else ink[:, ::-1]
    trail, last = np.empty_like(way), np.zeros(len(way), np.float32)
    for column in range(way.shape[1]):
        last = np.maximum(way[:, column], last * hold)
        trail[:, column] = last
    trail = trail if way is ink else trail[:, ::-1]
    return x + sign * 0.6 * much * np.maximum(trail - ink, 0)


def thick(x, much, rng):
    """Ink that ran, or a worn ribbon."""
    size = (int(rng.integers(1, 4)), int(rng.integers(2, 5)))
    change = (ndimage.grey_erosion if rng.random() < 0.5 else ndimage.grey_dilation)(x, size)
    return x + (change - x) * much


def dead_bars(x, much, rng):
    """Points of a print head that are dead, along the line or across it."""
    paper, kept = paper_of(x), np.ones(x.shape, np.float32)
    across = rng.random() < 0.4
    for _ in range(1 + int(5 * much * rng.random())):
        thick = int(rng.integers(1, 4))
        at = int(rng.integers(0, x.shape[1 if across else 0]))
        kept[(slice(None), slice(at, at + thick)) if across else slice(at, at + thick)] = spread(0, 0.6, rng)
    return paper + (x - paper) * kept


def lost_dots(x, much, rng):
    paper, pitch = paper_of(x), spread(3, 7, rng)
    rows, columns = (np.arange(HEIGHT) / pitch).astype(int), (np.arange(x.shape[1]) / pitch).astype(int)
    there = rng.random((rows[-1] + 1, columns[-1] + 1)) > 0.3 * much
    kept = np.where(there[rows][:, columns], 1, spread(0, 0.6, rng)).astype(np.float32)
    return paper + (x - paper) * ndimage.gaussian_filter(kept, 0.7)


def in_dots(x, much, rng):
    """Any print, seen as dots or as lines of a head."""
    pitch, thin = spread(3.5, 6.5, rng), spread(0.1, 0.8, rng) * much
    paper = paper_of(x)
    rows = 0.5 + 0.5 * np.cos(2 * np.pi * (np.arange(HEIGHT)[:, None] / pitch + rng.random()))
    columns = 0.5 + 0.5 * np.cos(2 * np.pi * (np.arange(x.shape[1])[None, :] / pitch + rng.random()))
    which = rng.random()
    grid = rows * columns if which < 0.5 else rows + 0 * columns if which < 0.8 else columns + 0 * rows
    return paper + (x - paper) * (1 - thin + thin * np.sqrt(grid))


def raised(x, much, rng):
    """Edges that shine on one side and shade the other, as on embossed tape."""
    angle = spread(0, 2 * np.pi, rng)
    soft = ndimage.gaussian_filter(x, spread(0.5, 1.5, rng))
    slope = np.cos(angle) * ndimage.sobel(soft, 1) + np.sin(angle) * ndimage.sobel(soft, 0)
    return x * (1 - 0.5 * much * rng.random()) + 0.35 * much * slope


# Label.

def blotches(x, much, rng):
    for _ in range(1 + int(4 * rng.random())):
        rows, columns = np.mgrid[:HEIGHT, :x.shape[1]]
        size = spread(4, 26, rng)
        from_middle = np.hypot((rows - spread(0, HEIGHT, rng)) * spread(0.6, 1.6, rng), columns - spread(0, x.shape[1], rng))
        edge = from_middle / size + 0.7 * (field(x.shape, size / 2 + 2, rng) - 0.5)
        inside = np.clip((1 - edge) * spread(2, 12, rng), 0, 1)
        if rng.random() < 0.35:
            inside = inside * np.clip((edge - 0.7) * 6, 0.15, 1)
        x = x + inside * much * 0.75 * (spread(0, 255, rng) - x)
    return x


def scratches(x, much, rng):
    """Straight ones, and cracks that wander."""
    for _ in range(1 + int(5 * much)):
        wanders, tone, thickness = rng.random() < 0.5, spread(0, 255, rng), spread(0.5, 1.6, rng)
        upright = rng.random() < 0.6
        count = x.shape[0 if upright else 1]
        line = signed(1.5 if upright else 0.3, rng) * np.arange(count) + spread(0, x.shape[1 if upright else 0], rng)
        if wanders:
            line = line + np.cumsum(rng.normal(0, 0.8, count))
        others = np.arange(x.shape[1 if upright else 0])
        over = np.clip(thickness + 0.5 - np.abs(others[None, :] - line[:, None]), 0, 1)
        over = (over if upright else over.T) * spread(0.3, 1, rng)
        x = x + over * (tone - x)
    return x


def creased(x, much, rng):
    """A fold: print is shifted across it, and it shines or is dark."""
    upright = rng.random() < 0.6
    rows, columns = np.mgrid[:HEIGHT, :x.shape[1]].astype(np.float32)
    across = columns - spread(0, x.shape[1], rng) + signed(0.8, rng) * rows if upright else rows - spread(5, 43, rng) + signed(0.05, rng) * columns
    step = signed(3 * much + 0.5, rng) * (across > 0)
    x = ndimage.map_coordinates(x, [rows + (step if upright else 0), columns + (0 if upright else step)], order=1, mode="nearest")
    return x + signed(140, rng) * (0.3 + 0.7 * much) * np.exp(-(across / spread(0.7, 2.5, rng)) ** 2)


def torn(x, much, rng):
    """A ragged edge, and what is behind it."""
    side, deep = rng.integers(4), spread(0.05, 0.2, rng) * HEIGHT * (0.3 + 0.7 * much)
    if side < 2:
        edge = deep + field((1, x.shape[1]), 6, rng) * 5 - 2 + signed(0.02, rng) * np.arange(x.shape[1])[None, :]
        gone = np.arange(HEIGHT)[:, None] < edge
        gone = gone if side == 0 else gone[::-1]
    else:
        edge = deep * 0.5 + field((HEIGHT, 1), 6, rng) * 5 - 2
        gone = np.arange(x.shape[1])[None, :] < edge
        gone = gone if side == 2 else gone[:, ::-1]
    return np.where(gone, spread(0, 255, rng) + 20 * (field(x.shape, 5, rng) - 0.5), x)


def textured(x, much, rng):
    """Paper, cloth tape, brushed metal."""
    grain = field(x.shape, spread(1, 6, rng), rng) - 0.5
    if rng.random() < 0.4:
        grain = ndimage.uniform_filter1d(rng.random(x.shape, dtype=np.float32) - 0.5, int(rng.integers(5, 30)), axis=int(rng.integers(2))) * 3
    elif rng.random() < 0.3:
        pitch, turn = spread(2.5, 8, rng), spread(0, np.pi, rng)
        rows, columns = np.mgrid[:HEIGHT, :x.shape[1]]
        grain = 0.4 * np.sin(2 * np.pi * (columns * np.cos(turn) + rows * np.sin(turn)) / pitch)
    return x + 110 * much * grain


def ruled(x, much, rng):
    """A frame, a rule below, the edge of a sleeve."""
    tone = spread(0, 255, rng)
    for _ in range(int(rng.integers(1, 3))):
        at = spread(0, 6, rng) if rng.random() < 0.5 else spread(42, 47, rng)
        line = at + signed(0.012, rng) * np.arange(x.shape[1])[None, :]
        x = x + np.clip(spread(0.8, 2, rng) - np.abs(np.arange(HEIGHT)[:, None] - line), 0, 1) * (0.3 + 0.7 * much) * (tone - x)
    return x


# Shape.

def slanted(x, much, rng):
    """Seen from the side: sheared, and one end higher than the other."""
    rows, columns = np.mgrid[:HEIGHT, :x.shape[1]].astype(np.float32)
    from_middle, along = rows - HEIGHT / 2, columns / x.shape[1] - 0.5
    return moved(x, signed(0.3 * much, rng) * from_middle, from_middle * signed(0.45 * much, rng) * along + signed(5 * much, rng) * along)


def bent(x, much, rng):
    """Around a sleeve, or wavy."""
    along = np.arange(x.shape[1], dtype=np.float32)[None, :] / x.shape[1]
    wave = np.sin(2 * np.pi * (along * spread(0.4, 2.5, rng) + rng.random()))
    return moved(x, np.zeros_like(x), signed(4.5 * much, rng) * wave + np.zeros_like(x))


def squeezed(x, much, rng):
    """Letters that are narrow here and wide there."""
    along = np.arange(x.shape[1], dtype=np.float32)[None, :] / x.shape[1]
    shift = x.shape[1] * 0.03 * much * np.sin(np.pi * along) * np.sin(2 * np.pi * (along * spread(0.5, 2, rng) + rng.random()))
    return moved(x, shift + np.zeros_like(x), np.zeros_like(x))


# Light.

def shaded(x, much, rng):
    rows, columns = np.linspace(-1, 1, HEIGHT)[:, None], np.linspace(-1, 1, x.shape[1])[None, :]
    return x * (1 + much * (signed(0.35, rng) * columns + signed(0.3, rng) * rows + signed(0.3, rng) * columns * columns))


def shadow(x, much, rng):
    """Of a cable that hangs before it."""
    rows, columns = np.mgrid[:HEIGHT, :x.shape[1]]
    turn = spread(-0.6, 0.6, rng)
    across = (columns - spread(0, x.shape[1], rng)) * np.cos(turn) + rows * np.sin(turn)
    inside = np.clip((spread(8, 60, rng) - np.abs(across)) / spread(1, 8, rng), 0, 1)
    return x * (1 - 0.65 * much * inside)


def glare(x, much, rng):
    """A lamp in the gloss: a spot, white in its middle."""
    rows, columns = np.mgrid[:HEIGHT, :x.shape[1]]
    wide, high = spread(10, 60, rng), spread(5, 30, rng)
    middle = ((columns - spread(0, x.shape[1], rng)) / wide) ** 2 + ((rows - spread(0, HEIGHT, rng)) / high) ** 2
    return x + 255 * 1.1 * much * np.clip(1.3 - middle, 0, 0.9) * (1 - x / 400)


def toned(x, much, rng):
    """Over- or underexposed."""
    return 255 * (x / 255) ** np.exp(signed(1.1 * much, rng))


# Camera.

def shaken(x, much, rng):
    length = 1 + 7 * much
    turn, half = spread(0, np.pi, rng), int(np.ceil(length / 2)) + 1
    rows, columns = np.mgrid[-half:half + 1, -half:half + 1]
    along, across = columns * np.cos(turn) + rows * np.sin(turn), -columns * np.sin(turn) + rows * np.cos(turn)
    kernel = np.clip(length / 2 + 0.5 - np.abs(along), 0, 1) * np.clip(1 - np.abs(across), 0, 1)
    return ndimage.convolve(x, (kernel / kernel.sum()).astype(np.float32), mode="nearest")


def unfocused(x, much, rng):
    if rng.random() < 0.5:
        return ndimage.gaussian_filter(x, 0.4 + 2.2 * much)
    radius = 0.8 + 2.8 * much
    reach = int(np.ceil(radius))
    rows, columns = np.mgrid[-reach:reach + 1, -reach:reach + 1]
    kernel = np.clip(radius + 0.5 - np.hypot(rows, columns), 0, 1)
    return ndimage.convolve(x, (kernel / kernel.sum()).astype(np.float32), mode="nearest")


def noisy(x, much, rng):
    which = rng.random()
    if which < 0.5:
        return x + rng.normal(0, 8 + 45 * much, x.shape)
    if which < 0.8:
        return x + ndimage.gaussian_filter(rng.normal(0, 1, x.shape), spread(0.6, 1.6, rng)) * (25 + 90 * much)
    spots = rng.random(x.shape)
    return np.where(spots < 0.04 * much, 0, np.where(spots > 1 - 0.04 * much, 255, x))


def sharpened(x, much, rng):
    """As telephones do it."""
    return x + (x - ndimage.gaussian_filter(x, spread(0.8, 2.5, rng))) * 2.5 * much


def small(x, much, rng):
    """Few pixels, made larger again."""
    by = 1 - spread(0.3, 0.68, rng) * (0.4 + 0.6 * much)
    ways = [Image.NEAREST, Image.BILINEAR, Image.BICUBIC, Image.LANCZOS, Image.BOX]
    picture = Image.fromarray(x.astype(np.uint8))
    less = picture.resize((max(8, int(x.shape[1] * by)), max(8, int(HEIGHT * by))), ways[rng.integers(5)])
    return np.asarray(less.resize((x.shape[1], HEIGHT), ways[rng.integers(5)]), np.float32)


def saved(x, much, rng):
    """With few bytes, as a picture of another size."""
    by = spread(0.45, 1, rng)
    picture = Image.fromarray(x.astype(np.uint8)).resize((max(8, int(x.shape[1] * by)), max(8, int(HEIGHT * by))), Image.BILINEAR)
    file = io.BytesIO()
    picture.save(file, "JPEG", quality=int(60 - 50 * much))
    return np.asarray(Image.open(file).resize((x.shape[1], HEIGHT), Image.BICUBIC), np.float32)


KINDS = [
    crooked, faded, dry, smeared, thick, dead_bars, lost_dots, in_dots, raised,
    blotches, scratches, creased, torn, textured, ruled,
    slanted, bent, squeezed,
    shaded, shadow, glare, toned,
    shaken, unfocused, noisy, sharpened, small, saved,
]
