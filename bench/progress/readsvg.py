"""Reads plots of progress back from their SVG with Python's own XML parser: values through the axis' ticks, dates through their labels, rings through their angles.

Takes JSON on standard input, a list of {"kind": "days" | "rings" | "whole", "svg": text}; writes the figures as JSON. It shares nothing with what drew them.
"""
import datetime, json, math, re, sys
import xml.etree.ElementTree as ET

NS = '{http://www.w3.org/2000/svg}'
MONTHS = {m: k + 1 for k, m in enumerate(['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sept', 'Oct', 'Nov', 'Dec'])}

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

def months_of(time):
    """Months stand at their first days, the year below the first of each."""
    (bottom,), (years,) = of_class(time, 'picture-axis-bottom'), of_class(time, 'picture-years')
    starts = sorted((float(t.get('x')), int(t.text)) for t in texts(years))
    year = lambda x: [y for at, y in starts if at <= x + .01][-1]
    return [(float(t.get('x')), datetime.date(year(float(t.get('x'))), MONTHS[t.text], 1).toordinal()) for t in texts(bottom)]

def whole(root):
    """A day begins at its place on the axis; what is of a day alone stands in its middle."""
    (time,) = of_class(root, 'picture-time')
    ticks = months_of(time)
    day = scale(ticks)
    begins = lambda px: datetime.date.fromordinal(round(day(px))).isoformat()
    until = lambda px: datetime.date.fromordinal(round(day(px)) - 1).isoformat()
    on = lambda px: datetime.date.fromordinal(math.floor(day(px))).isoformat()
    lanes = []
    for g in of_class(root, 'picture-lane'):
        (span,) = of_class(g, 'picture-span')
        x0 = float(span.get('x'))
        axes, path = of_class(g, 'picture-axis-left'), of_class(g, 'picture-line')
        points = [tuple(map(float, p.split(','))) for p in re.findall(r'-?[\d.]+,-?[\d.]+', path[0].get('d'))] if path else []
        value = scale([(float(t.get('y')), number(t.text)) for t in texts(axes[0])]) if axes else None
        wanted = of_class(g, 'picture-wanted')
        lanes.append(dict(name=of_class(g, 'picture-name')[0].text, stands=of_class(g, 'picture-stands')[0].text, start=begins(x0), end=until(x0 + float(span.get('width'))),
                          ends=len(of_class(g, 'picture-end')), days=[on(x) for x, _ in points], values=[value(y) for _, y in points] if value else [],
                          wanted=value(float(wanted[0].get('y1'))) if value and wanted else None))
    away = []
    for g in of_class(root, 'picture-away'):
        (rect,) = g.iter(NS + 'rect')
        x = float(rect.get('x'))
        away.append(dict(start=begins(x), end=until(x + float(rect.get('width'))), number=''.join(t.text for t in texts(g))))
    stood = [dict(start=begins(float(r.get('x'))), end=until(float(r.get('x')) + float(r.get('width')))) for r in of_class(root, 'picture-stood')]
    jumps = [on(float(re.match(r'M(-?[\d.]+),', p.get('d')).group(1)) + 5) for p in of_class(root, 'picture-jump')]
    pieces = [[sum(p.get('d').count('M') for p in of_class(g, name)) for name in ('picture-line', 'picture-over')] for g in of_class(root, 'picture-lane')]
    at = lambda name: [dict(day=on(float(next(g.iter(NS + 'line')).get('x1'))), number=''.join(t.text for t in texts(g))) for g in of_class(root, name)]
    sizes = [float(t.get('font-size')) for t in texts(root)]
    xs = sorted(x for x, _ in ticks)
    right = max(float(t.get('x')) + (0.54 * float(t.get('font-size')) * len(t.text) if t.get('text-anchor') is None else 0) for t in texts(root))
    return dict(lanes=lanes, away=away, stood=stood, jumps=jumps, pieces=pieces, changes=at('picture-change'), lessons=at('picture-lesson'), least=min(sizes), right=right,
                apart=min([b - a for a, b in zip(xs, xs[1:])], default=1e9), numbers=[t.text for t in of_class(root, 'picture-number')], told=[t.text for t in of_class(root, 'picture-told')])

def read(plot):
    root = ET.fromstring(plot['svg'])
    if plot['kind'] == 'whole':
        return whole(root)
    if plot['kind'] == 'days':
        return days_plot(root)
    rings = [e for e in root.iter(NS + 'svg') if of_class(e, 'picture-ring') and not [n for n in e.iter(NS + 'svg') if n is not e]]
    return [ring(r) for r in rings]

json.dump([read(p) for p in json.load(sys.stdin)], sys.stdout)
