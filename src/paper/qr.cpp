// SPDX-License-Identifier: Apache-2.0
/// QR codes. libqrencode is loaded at the first code, so that the program does not load it at every start; its
/// header gives the types.

#include <dlfcn.h>
#include <qrencode.h>

#include <memory>

#include "fogwright/paper/document.hpp"

namespace fogwright::paper {
namespace {

constexpr std::size_t longest = 2331;  // version 40, level M, bytes: ISO/IEC 18004 table 7, from memory

struct Encoder {
  decltype(&QRcode_encodeData) encode = nullptr;
  decltype(&QRcode_free) free = nullptr;
};

Encoder load_encoder() {
  void* library = dlopen("libqrencode.so.4", RTLD_NOW | RTLD_LOCAL);
  if (library == nullptr) return {};
  return {reinterpret_cast<decltype(Encoder::encode)>(dlsym(library, "QRcode_encodeData")),
          reinterpret_cast<decltype(Encoder::free)>(dlsym(library, "QRcode_free"))};
}

std::vector<std::string> rows_of(const QRcode& code) {
  const auto width = static_cast<std::size_t>(code.width);
  std::vector<std::string> rows(width, std::string(width, '0'));
  for (std::size_t i = 0; i < width * width; ++i)
    if ((code.data[i] & 1U) != 0) rows[i / width][i % width] = '1';
  return rows;
}

}  // namespace

Result<Qr> make_qr(std::string text) {
  static const Encoder encoder = load_encoder();
  if (encoder.encode == nullptr || encoder.free == nullptr)
    return fail(ErrorCode::internal_fault, "The library for QR codes, libqrencode.so.4, could not be loaded.",
                "", "Install the package libqrencode4.");
  if (text.empty() || text.size() > longest)
    return fail(ErrorCode::out_of_range, "A QR code holds 1 to 2,331 bytes.", "qr", "Put in less.");
  const std::unique_ptr<QRcode, decltype(encoder.free)> code(
      encoder.encode(static_cast<int>(text.size()), reinterpret_cast<const unsigned char*>(text.data()), 0,
                     QR_ECLEVEL_M),
      encoder.free);
  if (code == nullptr)
    return fail(ErrorCode::internal_fault, "The QR code could not be made.", "qr", "Put in less.");
  Qr qr;
  qr.modules = rows_of(*code);
  qr.text = std::move(text);
  return qr;
}

}  // namespace fogwright::paper
