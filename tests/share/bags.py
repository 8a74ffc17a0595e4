# SPDX-License-Identifier: GPL-3.0-or-later
"""Bags for tests, made and judged without a line of the program's own code.

A bag is a dict from names to bytes. seal() writes its manifests, folder(), tarball() and zipped() put
it on the disk, and judge() says whether it is complete and valid as RFC 8493 has it."""

import hashlib
import io
import pathlib
import re
import tarfile
import unicodedata
import zipfile

DECLARATION = b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"


# --- making --------------------------------------------------------------------------------------


def encode(name):
    return name.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def manifest(files, algorithm="sha256"):
    lines = [f"{hashlib.new(algorithm, data).hexdigest()}  {encode(name)}\n" for name, data in sorted(files.items())]
    return "".join(lines).encode("utf-8", "surrogateescape")


def payload(bag):
    return {name: data for name, data in bag.items() if name.startswith("data/")}


def seal(bag, algorithms=("sha256",), tags=True):
    """Writes the manifests that go with the payload and the tag files, in place of any that are there."""
    for name in [name for name in bag if re.match(r"(tag)?manifest-", name)]:
        del bag[name]
    for algorithm in algorithms:
        bag[f"manifest-{algorithm}.txt"] = manifest(payload(bag), algorithm)
    return seal_tags(bag, algorithms) if tags else bag


def seal_tags(bag, algorithms=("sha256",)):
    tags = {name: data for name, data in bag.items() if not name.startswith(("data/", "tagmanifest-"))}
    for algorithm in algorithms:
        bag[f"tagmanifest-{algorithm}.txt"] = manifest(tags, algorithm)
    return bag


def info(bag, *more):
    """bag-info.txt with a Payload-Oxum that is right, and more lines."""
    files = payload(bag)
    oxum = f"Payload-Oxum: {sum(map(len, files.values()))}.{len(files)}\n"
    bag["bag-info.txt"] = (oxum + "".join(line + "\n" for line in more)).encode()
    return bag


# --- putting it down -----------------------------------------------------------------------------


def folder(path, bag):
    path = pathlib.Path(path)
    path.mkdir()
    for name, data in bag.items():
        place = path / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)
    return path


def member(name, data=b"", **more):
    """One entry of a tar archive. A member that is given a link, a device and the like has no data."""
    entry = tarfile.TarInfo(name)
    entry.size = len(data)
    for key, value in more.items():
        setattr(entry, key, value)
    return entry, data


def tarball(path, bag, extra=(), base="bag/", mode="w:gz", form=tarfile.PAX_FORMAT):
    with tarfile.open(path, mode, format=form) as out:
        for entry, data in [member(base + name, data) for name, data in bag.items()] + list(extra):
            out.addfile(entry, io.BytesIO(data) if entry.isreg() else None)
    return pathlib.Path(path)


def zipped(path, bag, extra=(), base="bag/", compression=zipfile.ZIP_DEFLATED):
    with zipfile.ZipFile(path, "w", compression) as out:
        for name, data in bag.items():
            out.writestr(base + name, data)
        for entry, data in extra:
            out.writestr(entry, data)
    return pathlib.Path(path)


# --- reading and judging -------------------------------------------------------------------------


def read_folder(path):
    path = pathlib.Path(path)
    return {place.relative_to(path).as_posix(): place.read_bytes() for place in sorted(path.rglob("*")) if place.is_file()}


def read_archive(path):
    """The bag in an archive, without the folder around it."""
    if zipfile.is_zipfile(path):
        with zipfile.ZipFile(path) as archive:
            assert archive.testzip() is None
            files = {name: archive.read(name) for name in archive.namelist()}
    else:
        with tarfile.open(path) as archive:
            assert all(entry.isreg() for entry in archive.getmembers())
            files = {entry.name: archive.extractfile(entry).read() for entry in archive.getmembers()}
    bases = {name.split("/")[0] for name in files}
    assert len(bases) == 1, bases
    return {name.split("/", 1)[1]: data for name, data in files.items()}


def lines_of(data):
    """Lines of a tag file: LF, CR or CRLF (RFC 8493, 2.3)."""
    text = data.decode("utf-8")
    assert not text.startswith("\ufeff")
    lines = re.split(r"\r\n|\r|\n", text)
    return lines[:-1] if lines[-1] == "" else lines


def decode(name):
    assert not re.search(r"%(?!0[aA]|0[dD]|25)", name), name
    return re.sub(r"%(0A|0D|25)", lambda found: chr(int(found.group(1), 16)), name, flags=re.I)


def entries_of(data):
    entries = {}
    for line in lines_of(data):
        found = re.fullmatch(r"([0-9a-fA-F]+)[ \t]+(.+)", line)
        assert found, line
        name = decode(found.group(2))
        assert name not in entries, name
        entries[name] = found.group(1).lower()
    return entries


def judge(bag):
    """Raises an AssertionError unless @bag is complete and valid (RFC 8493, 3)."""
    declaration = lines_of(bag["bagit.txt"])
    assert declaration == ["BagIt-Version: 1.0", "Tag-File-Character-Encoding: UTF-8"], declaration
    files = payload(bag)
    manifests = {name: entries_of(data) for name, data in bag.items() if re.fullmatch(r"manifest-[a-z0-9]+\.txt", name)}
    tag_manifests = {name: entries_of(data) for name, data in bag.items() if re.fullmatch(r"tagmanifest-[a-z0-9]+\.txt", name)}
    assert manifests and files and "fetch.txt" not in bag
    for name, entries in manifests.items():
        assert set(entries) == set(files), name
    for name, entries in tag_manifests.items():
        assert set(manifests) <= set(entries) <= set(bag), name
        assert not any(entry.startswith(("data/", "tagmanifest-")) for entry in entries), name
    for name, entries in [*manifests.items(), *tag_manifests.items()]:
        algorithm = name.split("-")[1].split(".")[0]
        for entry, digest in entries.items():
            assert hashlib.new(algorithm, bag[entry]).hexdigest() == digest, entry
    elements = [line.split(": ", 1) for line in lines_of(bag.get("bag-info.txt", b""))]
    for label, value in elements:
        if label == "Payload-Oxum":
            assert value == f"{sum(map(len, files.values()))}.{len(files)}", value
    assert sum(label == "Payload-Oxum" for label, value in elements) <= 1
    assert len({unicodedata.normalize("NFC", name).casefold() for name in bag}) == len(bag)
