# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads what Wainbook published on a file server, from the words of help and schema alone: written apart
from the C, so that a test can ask what any other reader would see at this moment. It believes nothing:
a version counts when its bytes are what its name says, and is whole when every file that it names is
there with the size and the hash that it says."""

import dataclasses
import hashlib
import json
import pathlib
import re
import urllib.parse
import xml.etree.ElementTree

VERSION = re.compile(r"jobs/([A-Za-z0-9._-]{1,64})/([0-9]{6})-([0-9a-f]{64})\.json")


class Folder:
    """The files of a server in a folder of this machine."""

    def __init__(self, root):
        self.root = pathlib.Path(root)

    def names(self):
        return sorted(str(path.relative_to(self.root)) for path in self.root.rglob("*")
                      if path.is_file() and not path.is_symlink())

    def read(self, name):
        return (self.root / name).read_bytes()


class Bucket:
    """The files of a server of servers.s3(), below a prefix, asked for with signed requests."""

    def __init__(self, store, prefix=""):
        self.store, self.prefix = store, prefix

    def names(self):
        found, marker = [], None
        while True:
            query = {"list-type": "2", "prefix": self.prefix}
            if marker:
                query["continuation-token"] = marker
            words = "&".join(f"{key}={urllib.parse.quote(query[key], safe='')}" for key in sorted(query))
            status, _headers, body = self.store.request("GET", f"/{self.store.bucket}", words)
            assert status == 200, (status, body)
            root = xml.etree.ElementTree.fromstring(body)
            space = root.tag.partition("}")[0] + "}" if root.tag.startswith("{") else ""
            found += [node.text[len(self.prefix):] for node in root.iter(space + "Key")]
            marker = root.findtext(space + "NextContinuationToken")
            if not marker:
                return sorted(found)

    def read(self, name):
        path = urllib.parse.quote(f"/{self.store.bucket}/{self.prefix}{name}", safe="/-._~")
        status, _headers, body = self.store.request("GET", path)
        assert status == 200, (name, status, body)
        return body


@dataclasses.dataclass(frozen=True)
class Version:
    job: str
    number: int
    sha256: str
    parents: tuple
    document: str               # hash of the job document
    files: tuple                # (hash, size) of everything that it names, the document among them


def version_of(name, data):
    """The version that stands in a file; None when the file is not whole."""
    job, number, sha256 = VERSION.fullmatch(name).groups()
    if hashlib.sha256(data).hexdigest() != sha256:
        return None
    said = json.loads(data)
    assert said["job"] == job and said["number"] == int(number), name
    files = [said["document"], *said["files"]]
    return Version(job, int(number), sha256, tuple(said["parents"]), said["document"]["sha256"],
                   tuple((one["sha256"], one["size"]) for one in files))


def object_name(sha256):
    return f"objects/{sha256[:2]}/{sha256}"


def heads_of(versions):
    """Those that no other names as its parent."""
    named = {parent for version in versions for parent in version.parents}
    return [version for version in versions if version.sha256 not in named]


class Reader:
    """Looks at the same server again and again. What it found good under a name that is a hash it does not
    read once more, since such a file never changes; that it is still there is looked at each time."""

    def __init__(self, stored):
        self.stored = stored
        self.good = set()           # names of objects
        self.known = {}             # name of a version's file -> Version

    def forget(self):
        """Has everything read once more."""
        self.good.clear()
        self.known.clear()

    def _versions(self, names):
        """Every version that a reader would count, by job."""
        found = {}
        for name in filter(VERSION.fullmatch, names):
            version = self.known.get(name) or version_of(name, self.stored.read(name))
            if version is not None:
                self.known[name] = version
                found.setdefault(version.job, []).append(version)
        return found

    def _check_object(self, version, sha256, size, names):
        name = object_name(sha256)
        assert name in names, f"version {version.number} has half a job: {name} is not there"
        if name in self.good:
            return
        data = self.stored.read(name)
        assert len(data) == size, (name, len(data), size)
        assert hashlib.sha256(data).hexdigest() == sha256, f"{name} is not what its name says"
        self.good.add(name)

    def heads(self):
        """Checks that every version of every job is whole and that all hang together. Returns the heads by
        job, and raises AssertionError with what is wrong."""
        names = set(self.stored.names())
        by_job = self._versions(sorted(names))
        for job, versions in by_job.items():
            known = {version.sha256 for version in versions}
            for version in versions:
                assert set(version.parents) <= known, f"{job}: a parent of version {version.number} is lost"
                for sha256, size in version.files:
                    self._check_object(version, sha256, size, names)
        return {job: heads_of(versions) for job, versions in by_job.items()}
