// SPDX-License-Identifier: Apache-2.0
#include "bundle/zip.hpp"

#include <minizip/zip.h>

#include <algorithm>

namespace fogwright::bundle {
namespace {

/// What minizip writes goes into a string; it comes back to a member's header once the member's size is known.
struct Memory {
  std::string bytes;
  std::size_t at = 0;
};

Memory& memory_of(voidpf stream) { return *static_cast<Memory*>(stream); }

voidpf open_memory(voidpf memory, const void*, int) { return memory; }
uLong read_memory(voidpf, voidpf, void*, uLong) { return 0; }

uLong write_memory(voidpf, voidpf stream, const void* from, uLong count) {
  Memory& memory = memory_of(stream);
  if (memory.at + count > memory.bytes.size()) memory.bytes.resize(memory.at + count);
  std::copy_n(static_cast<const char*>(from), count,
              memory.bytes.begin() + static_cast<std::ptrdiff_t>(memory.at));
  memory.at += count;
  return count;
}

ZPOS64_T tell_memory(voidpf, voidpf stream) { return memory_of(stream).at; }

long seek_memory(voidpf, voidpf stream, ZPOS64_T offset, int origin) {
  Memory& memory = memory_of(stream);
  const std::size_t from = origin == ZLIB_FILEFUNC_SEEK_SET   ? 0
                           : origin == ZLIB_FILEFUNC_SEEK_CUR ? memory.at
                                                              : memory.bytes.size();
  memory.at = from + offset;
  return 0;
}

int close_memory(voidpf, voidpf) { return 0; }
int no_error(voidpf, voidpf) { return 0; }

bool add(zipFile zip, const Member& member) {
  zip_fileinfo info{};
  info.dosDate = 0x21UL << 16;  // 1980-01-01 00:00, the earliest there is
  if (zipOpenNewFileInZip64(zip, member.name.c_str(), &info, nullptr, 0, nullptr, 0, nullptr, Z_DEFLATED,
                            Z_DEFAULT_COMPRESSION, 0) != ZIP_OK)
    return false;
  const bool written =
      zipWriteInFileInZip(zip, member.bytes.data(), static_cast<unsigned>(member.bytes.size())) == ZIP_OK;
  return zipCloseFileInZip(zip) == ZIP_OK && written;
}

}  // namespace

Result<std::string> zip_of(std::span<const Member> members) {
  Memory memory;
  zlib_filefunc64_def functions{open_memory, read_memory,  write_memory, tell_memory,
                                seek_memory, close_memory, no_error,     &memory};
  zipFile zip = zipOpen2_64("", APPEND_STATUS_CREATE, nullptr, &functions);
  const bool good = zip != nullptr && std::all_of(members.begin(), members.end(),
                                                  [zip](const Member& member) { return add(zip, member); });
  const bool closed = zip != nullptr && zipClose(zip, nullptr) == ZIP_OK;
  if (good && closed) return std::move(memory.bytes);
  return fail(ErrorCode::internal_fault, "the bundle could not be packed", {}, "report this as a defect");
}

}  // namespace fogwright::bundle
