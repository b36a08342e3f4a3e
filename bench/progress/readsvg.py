"""Reads plots of progress back from their SVG with Python's own XML parser: values through the axis' ticks, dates through their labels, rings through their angles.

Takes JSON on standard input, a list of {"kind": "days" | "rings", "svg": text}; writes the figures as JSON. It shares nothing with what drew them.
"""
import datetime, json, math, re, sys
import xml.etree.ElementTree as ET

NS = '{http://www.w3.org/2000/svg}'
MONTHS = {m: k + 1 for k, m in enumerate(['Jan', 'Feb', 'Mar', 'Apr', 'May', 'June', 'July', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'])}

def of_class(root, name):
    return [e for e in root.iter() if name in e.get('class', '').split()]

def texts(e):
    return [t for t in e.iter(NS + 'text')]

def scale(pairs):
    (x0, v0), (x1, v1) = pairs[0], pairs[-1]
    return lambda px: v0 + (px - x0) * (v1 - v0) / (x1 - x0)

def number(text):
    return float(text.replace('\u2212', '-'))

def days_of(axis):
    """Labels name the year where it is new; a month that comes before the last one is of the next year."""
    ticks, year = [], None
    for t in texts(axis):
        parts = t.text.split(' ')
        year = int(parts[2]) if len(parts) > 2 else year
        ticks.append((float(t.get('x')), datetime.date(year, MONTHS[parts[1]], int(parts[0])).toordinal()))
    return ticks

def iso(ordinal):
    return datetime.date.fromordinal(round(ordinal)).isoformat(), abs(ordinal - round(ordinal))

def days_plot(root):
    (left,), (bottom,) = of_class(root, 'picture-axis-left'), of_class(root, 'picture-axis-bottom')
    value = scale([(float(t.get('y')), number(t.text)) for t in texts(left)])
    ticks = days_of(bottom)
    day = scale(ticks) if len(ticks) > 1 else None
    marks = []
    for g in of_class(root, 'picture-point'):
        (circle,) = g.iter(NS + 'circle')
        ys = [float(l.get(k)) for l in g.iter(NS + 'line') for k in ('y1', 'y2')]
        date, off = iso(day(float(circle.get('cx'))))
        marks.append(dict(day=date, off=off, value=value(float(circle.get('cy'))), low=value(max(ys)), high=value(min(ys)), open=circle.get('class') == 'picture-word'))
    line_of = lambda g: next(g.iter(NS + 'line'))
    wanted = [value(float(line_of(g).get('y1'))) for g in of_class(root, 'picture-wanted')]
    changes = [dict(day=iso(day(float(line_of(g).get('x1'))))[0], label=texts(g)[0].text) for g in of_class(root, 'picture-change')]
    unknown = [iso(day(float(l.get('x1'))))[0] for l in of_class(root, 'picture-unknown')]
    labels = sorted(float(t.get('x')) for t in texts(bottom))
    apart = min([b - a for a, b in zip(labels, labels[1:])], default=1e9)
    return dict(marks=marks, wanted=wanted, changes=changes, unknown=unknown, apart=apart)

def ring(root):
    centre = float(root.get('width')) / 2
    note = of_class(root, 'picture-note')[0].text
    times = int(re.search(r'enlarged (\d+) times', note).group(1)) if 'enlarged' in note else 1
    turn = lambda x, y: math.atan2(x, -y) / (2 * math.pi)
    strokes = []
    for g in of_class(root, 'picture-stroke'):
        letter = of_class(g, 'picture-letter')[0]
        written = next(g.iter(NS + 'line'))
        at = turn(float(written.get('x2')) - centre, float(written.get('y2')) - centre)
        shift = lambda share: (share - at + .5) % 1 - .5
        interval = of_class(g, 'picture-interval')[0].get('d')
        start = [float(v) for v in re.match(r'M(-?[\d.]+),(-?[\d.]+)', interval).groups()]
        end = [float(v) for v in re.search(r'A[^A]*?,(-?[\d.]+),(-?[\d.]+)L', interval).groups()]
        strokes.append(dict(letter=letter.text, at=at % 1, size=float(letter.get('font-size')), shift=shift(turn(float(letter.get('x')) - centre, float(letter.get('y')) - centre)) / times,
                            low=shift(turn(*start)) / times, high=shift(turn(*end)) / times))
    return dict(strokes=strokes)

def read(plot):
    root = ET.fromstring(plot['svg'])
    if plot['kind'] == 'days':
        return days_plot(root)
    rings = [e for e in root.iter(NS + 'svg') if of_class(e, 'picture-ring') and not [n for n in e.iter(NS + 'svg') if n is not e]]
    return [ring(r) for r in rings]

json.dump([read(p) for p in json.load(sys.stdin)], sys.stdout)
