"""Reads an APK with nothing but Python's standard library and says whether it is what we meant to build.

The readers below follow the formats as published: ZIP (APPNOTE), binary XML chunks (ResourceTypes.h of the platform),
the dex header and class list (the platform's "Dalvik executable format"), ELF program and dynamic headers (System V gABI),
and the APK signing block (APK Signature Scheme v2/v3). They share nothing with aapt2, r8, zipalign or apksigner.
"""

import struct
import sys
import zipfile

PACKAGE = "slingseal.handheld"
ACTIVITY = "slingseal.handheld.HandheldActivity"
PERMISSIONS = {"android.permission.CAMERA", "android.permission.NFC", "android.permission.VIBRATE"}
LIBRARIES = ("libjnidispatch.so", "libslingseal_android.so")
MACHINES = {"arm64-v8a": 183, "x86_64": 62, "armeabi-v7a": 40}
CLASSES = {"Lslingseal/handheld/HandheldActivity;", "Lcom/sun/jna/Native;"}


def require(true, what):
    if not true:
        sys.exit(f"check_apk: {what}")


def strings_of(chunk):
    """The string pool of a binary XML chunk."""
    count, _, flags, start = struct.unpack_from("<IIII", chunk, 8)
    utf8 = flags & 0x100
    out = []
    for at in range(count):
        (offset,) = struct.unpack_from("<I", chunk, 28 + 4 * at)
        p = start + offset
        if utf8:
            p += 2 if chunk[p] & 0x80 else 1
            length = chunk[p]
            p += 1
            if length & 0x80:
                length = (length & 0x7F) << 8 | chunk[p]
                p += 1
            out.append(chunk[p : p + length].decode("utf-8"))
        else:
            (length,) = struct.unpack_from("<H", chunk, p)
            p += 2
            out.append(chunk[p : p + 2 * length].decode("utf-16-le"))
    return out


def elements(data):
    """(name, {attribute: value}) of every start tag of a binary XML."""
    kind, header, size = struct.unpack_from("<HHI", data, 0)
    require(kind == 3 and size == len(data), "the manifest is not binary XML")
    at, pool, found = header, [], []
    while at < size:
        kind, header, length = struct.unpack_from("<HHI", data, at)
        chunk = data[at : at + length]
        if kind == 1:
            pool = strings_of(chunk)
        elif kind == 0x102:
            _, name, start, each, count = struct.unpack_from("<IIHHH", chunk, 16)
            attributes = {}
            for i in range(count):
                _, key, raw, _, _, typ, value = struct.unpack_from("<IIIHBBI", chunk, 16 + start + i * each)
                attributes[pool[key]] = pool[value] if typ == 3 else value
            found.append((pool[name], attributes))
        at += length
    return found


def dex_classes(dex):
    require(dex[:4] == b"dex\n", "classes.dex has no dex header")
    strings, string_at = struct.unpack_from("<II", dex, 56)
    types, type_at = struct.unpack_from("<II", dex, 64)
    classes, class_at = struct.unpack_from("<II", dex, 96)

    def text(index):
        (p,) = struct.unpack_from("<I", dex, string_at + 4 * index)
        while dex[p] & 0x80:
            p += 1
        p += 1
        return dex[p : dex.index(0, p)].decode("utf-8", "replace")

    names = set()
    for i in range(classes):
        (type_index,) = struct.unpack_from("<I", dex, class_at + 32 * i)
        (string_index,) = struct.unpack_from("<I", dex, type_at + 4 * type_index)
        names.add(text(string_index))
    require(strings and types, "classes.dex is empty")
    return names


def elf_facts(so):
    """(machine, [page alignments of the loaded parts], has text relocations, has a TLS segment), of 32 or 64 bits."""
    require(so[:4] == b"\x7fELF" and so[5] == 1, "a library is no little-endian ELF")
    wide = so[4] == 2
    (machine,) = struct.unpack_from("<H", so, 18)
    (ph_at,) = struct.unpack_from("<Q", so, 32) if wide else struct.unpack_from("<I", so, 28)
    ph_size, ph_count = struct.unpack_from("<HH", so, 54 if wide else 42)
    pages, textrel, tls = [], False, False
    for i in range(ph_count):
        p = ph_at + i * ph_size
        if wide:
            kind, _, offset, _, _, filesz, _, align = struct.unpack_from("<IIQQQQQQ", so, p)
        else:
            kind, offset, _, _, filesz, _, _, align = struct.unpack_from("<8I", so, p)
        if kind == 1:
            pages.append(align)
        elif kind == 7:
            tls = True
        elif kind == 2:
            each = 16 if wide else 8
            for q in range(offset, offset + filesz, each):
                tag, _ = struct.unpack_from("<QQ" if wide else "<II", so, q)
                textrel |= tag == 22
    return machine, pages, textrel, tls


def signing_schemes(raw, directory_at):
    """The ids of the pairs in the APK signing block that stands before the central directory."""
    require(raw[directory_at - 16 : directory_at] == b"APK Sig Block 42", "no APK signing block")
    (size,) = struct.unpack_from("<Q", raw, directory_at - 24)
    at, end, ids = directory_at - size, directory_at - 24, set()
    while at < end:
        length, key = struct.unpack_from("<QI", raw, at)
        ids.add(key)
        at += 8 + length
    return ids


def main(path):
    raw = open(path, "rb").read()
    apk = zipfile.ZipFile(path)
    require(apk.testzip() is None, "a checksum of the archive is wrong")
    ids = signing_schemes(raw, apk.start_dir)
    require(0x7109871A in ids, "not signed by scheme v2")

    tags = elements(apk.read("AndroidManifest.xml"))
    first = dict(tags)
    require(first["manifest"]["package"] == PACKAGE, f"the package is {first['manifest']['package']}")
    sdk = first["uses-sdk"]
    require((sdk["minSdkVersion"], sdk["targetSdkVersion"]) == (26, 35), f"the API levels are {sdk}")
    asked = {a["name"] for name, a in tags if name.startswith("uses-permission")}
    require(asked == PERMISSIONS, f"the permissions are {sorted(asked)}")
    activities = [a["name"] for name, a in tags if name == "activity"]
    require(activities == [ACTIVITY], f"the activities are {activities}")
    require(first["application"].get("allowBackup") == 0, "a backup would carry the records off the device")

    classes = set()
    for name in apk.namelist():
        if name.endswith(".dex"):
            classes |= dex_classes(apk.read(name))
    require(CLASSES <= classes, f"classes missing: {sorted(CLASSES - classes)}")

    libraries = {n for n in apk.namelist() if n.endswith(".so")}
    for name in sorted(libraries):
        machine, pages, textrel, tls = elf_facts(apk.read(name))
        abi = name.split("/")[1]
        require(name == f"lib/{abi}/{name.split('/')[2]}" and MACHINES.get(abi) == machine, f"{name} is for machine {machine}")
        require(not textrel, f"{name} has text relocations")
        require(not tls, f"{name} has a TLS segment, which Android before 10 does not load")
        # phones of 64 bits map pages of 16 KiB since Android 15
        require(abi == "armeabi-v7a" or min(pages) >= 0x4000, f"{name} is laid out for pages of {hex(min(pages))}")
        size = apk.getinfo(name)
        print(f"{name}: machine {machine}, pages {sorted(set(map(hex, pages)))}, {size.file_size} bytes, {size.compress_size} in the archive")
    abis = {n.split("/")[1] for n in libraries}
    require("arm64-v8a" in abis, "there is no library for ARM64: this could not start on a phone")
    require(
        libraries == {f"lib/{abi}/{each}" for abi in abis for each in LIBRARIES},
        f"each ABI needs {LIBRARIES}: {sorted(libraries)}",
    )
    times = {info.date_time for info in apk.infolist()}
    require(times == {(2026, 1, 1, 0, 0, 0)}, f"entries carry other times: {sorted(times)}")
    print(f"independent parser: ok, {len(classes)} classes, libraries for {', '.join(sorted(abis))}")


main(sys.argv[1])
