//! Ed25519 against what stands outside: RFC 8032 §7.1, the Wycheproof set, and a library that shares nothing with ours.

use slingseal_message::trust::{PublicKey, SecretKey};

fn hex(text: &str) -> Vec<u8> {
    (0..text.len())
        .step_by(2)
        .map(|at| u8::from_str_radix(&text[at..at + 2], 16).expect("hexadecimal"))
        .collect()
}

/// RFC 8032 §7.1, "Test Vectors for Ed25519": secret key, public key, message, signature; all five.
#[rustfmt::skip]
const RFC_8032: [[&str; 4]; 5] = [
    // TEST 1
    [
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
        "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
        "",
        "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe\
     24655141438e7a100b",
    ],
    // TEST 2
    [
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
        "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
        "72",
        "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302a\
     eeb00d291612bb0c00",
    ],
    // TEST 3
    [
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
        "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
        "af82",
        "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed2\
     8dc027beceea1ec40a",
    ],
    // TEST 1024
    [
        "f5e5767cf153319517630f226876b86c8160cc583bc013744c6bf255f5cc0ee5",
        "278117fc144c72340f67d0f2316e8386ceffbf2b2428c9c51fef7c597f1d426e",
        "08b8b2b733424243760fe426a4b54908632110a66c2f6591eabd3345e3e4eb98fa6e264bf09efe12ee50f8f54e9f77b1e355f6c50544e2\
     3fb1433ddf73be84d879de7c0046dc4996d9e773f4bc9efe5738829adb26c81b37c93a1b270b20329d658675fc6ea534e0810a4432826b\
     f58c941efb65d57a338bbd2e26640f89ffbc1a858efcb8550ee3a5e1998bd177e93a7363c344fe6b199ee5d02e82d522c4feba15452f80\
     288a821a579116ec6dad2b3b310da903401aa62100ab5d1a36553e06203b33890cc9b832f79ef80560ccb9a39ce767967ed628c6ad573c\
     b116dbefefd75499da96bd68a8a97b928a8bbc103b6621fcde2beca1231d206be6cd9ec7aff6f6c94fcd7204ed3455c68c83f4a41da4af\
     2b74ef5c53f1d8ac70bdcb7ed185ce81bd84359d44254d95629e9855a94a7c1958d1f8ada5d0532ed8a5aa3fb2d17ba70eb6248e594e1a\
     2297acbbb39d502f1a8c6eb6f1ce22b3de1a1f40cc24554119a831a9aad6079cad88425de6bde1a9187ebb6092cf67bf2b13fd65f27088\
     d78b7e883c8759d2c4f5c65adb7553878ad575f9fad878e80a0c9ba63bcbcc2732e69485bbc9c90bfbd62481d9089beccf80cfe2df16a2\
     cf65bd92dd597b0707e0917af48bbb75fed413d238f5555a7a569d80c3414a8d0859dc65a46128bab27af87a71314f318c782b23ebfe80\
     8b82b0ce26401d2e22f04d83d1255dc51addd3b75a2b1ae0784504df543af8969be3ea7082ff7fc9888c144da2af58429ec96031dbcad3\
     dad9af0dcbaaaf268cb8fcffead94f3c7ca495e056a9b47acdb751fb73e666c6c655ade8297297d07ad1ba5e43f1bca32301651339e229\
     04cc8c42f58c30c04aafdb038dda0847dd988dcda6f3bfd15c4b4c4525004aa06eeff8ca61783aacec57fb3d1f92b0fe2fd1a85f672451\
     7b65e614ad6808d6f6ee34dff7310fdc82aebfd904b01e1dc54b2927094b2db68d6f903b68401adebf5a7e08d78ff4ef5d63653a65040c\
     f9bfd4aca7984a74d37145986780fc0b16ac451649de6188a7dbdf191f64b5fc5e2ab47b57f7f7276cd419c17a3ca8e1b939ae49e488ac\
     ba6b965610b5480109c8b17b80e1b7b750dfc7598d5d5011fd2dcc5600a32ef5b52a1ecc820e308aa342721aac0943bf6686b64b257937\
     6504ccc493d97e6aed3fb0f9cd71a43dd497f01f17c0e2cb3797aa2a2f256656168e6c496afc5fb93246f6b1116398a346f1a641f3b041\
     e989f7914f90cc2c7fff357876e506b50d334ba77c225bc307ba537152f3f1610e4eafe595f6d9d90d11faa933a15ef1369546868a7f3a\
     45a96768d40fd9d03412c091c6315cf4fde7cb68606937380db2eaaa707b4c4185c32eddcdd306705e4dc1ffc872eeee475a64dfac86ab\
     a41c0618983f8741c5ef68d3a101e8a3b8cac60c905c15fc910840b94c00a0b9d0",
        "0aab4c900501b3e24d7cdf4663326a3a87df5e4843b2cbdb67cbf6e460fec350aa5371b1508f9f4528ecea23c436d94b5e8fcd4f681e30\
     a6ac00a9704a188a03",
    ],
    // TEST SHA(abc)
    [
        "833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42",
        "ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf",
        "ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce8\
     0e2a9ac94fa54ca49f",
        "dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac1\
     7ad9bef1177331a704",
    ],
];

#[test]
fn rfc_8032_section_7_1() {
    for [secret, public, message, signature] in RFC_8032 {
        let [secret, public]: [[u8; 32]; 2] =
            [secret, public].map(|text| hex(text).try_into().expect("32 bytes"));
        let (message, signature) = (hex(message), hex(signature));
        let key = SecretKey::from_seed(&secret);
        assert_eq!(key.public().to_bytes(), public);
        assert_eq!(key.sign(&message).to_vec(), signature);
        let signature: [u8; 64] = signature.try_into().expect("64 bytes");
        let public = PublicKey::from_bytes(&public).expect("a sound key");
        assert!(public.signed(&message, &signature));
        assert!(!public.signed(&[message.clone(), vec![0]].concat(), &signature));
        for bit in 0..512 {
            let mut other = signature;
            other[bit / 8] ^= 1 << (bit % 8);
            assert!(!public.signed(&message, &other), "bit {bit}");
        }
    }
}

/// The set `ed25519_test.json` of the Wycheproof project (C2SP), by the crate `wycheproof` 0.7: every test, none left out.
#[test]
fn wycheproof() {
    let set = wycheproof::eddsa::TestSet::load(wycheproof::eddsa::TestName::Ed25519).expect("the set loads");
    let (mut valid, mut invalid) = (0, 0);
    for group in set.test_groups {
        let public: [u8; 32] = group.key.pk[..].try_into().expect("32 bytes");
        let ours = PublicKey::from_bytes(&public);
        for test in group.tests {
            let signature = <[u8; 64]>::try_from(&test.sig[..]);
            let passed = match (&ours, signature) {
                (Ok(key), Ok(signature)) => key.signed(&test.msg, &signature),
                _ => false,
            };
            let other = ed25519_compact::Signature::from_slice(&test.sig).is_ok_and(|signature| {
                ed25519_compact::PublicKey::new(public).verify(&test.msg[..], &signature).is_ok()
            });
            match test.result {
                wycheproof::TestResult::Valid => valid += 1,
                wycheproof::TestResult::Invalid => invalid += 1,
                wycheproof::TestResult::Acceptable => panic!("the set has no such test: {}", test.tc_id),
            }
            let wanted = test.result == wycheproof::TestResult::Valid;
            assert_eq!((passed, other), (wanted, wanted), "test {}: {}", test.tc_id, test.comment);
        }
    }
    println!("{valid} valid and {invalid} invalid signatures");
    assert!(valid >= 80 && invalid >= 60, "{valid} valid, {invalid} invalid: the set is not whole");
}

/// The eight points of small order, each in every spelling that the curve library takes: never a key.
#[test]
fn no_key_of_small_order_in_any_spelling() {
    use curve25519_dalek::constants::EIGHT_TORSION;
    use curve25519_dalek::edwards::CompressedEdwardsY;
    let mut spellings = 0;
    for point in EIGHT_TORSION {
        let bytes = point.compress().to_bytes();
        let mut all = vec![bytes];
        // x = 0 has a sign bit that says nothing; y + p fits 255 bits for y below 19.
        let mut signed = bytes;
        signed[31] ^= 0x80;
        all.push(signed);
        if bytes[1..31].iter().all(|byte| *byte == 0) && bytes[0] < 19 {
            for high in [0x7f, 0xff] {
                let mut above = [0xff; 32];
                (above[0], above[31]) = (0xed + bytes[0], high);
                all.push(above);
            }
        }
        for spelling in all {
            if CompressedEdwardsY(spelling).decompress().is_some_and(|point| point.is_small_order()) {
                spellings += 1;
                assert!(PublicKey::from_bytes(&spelling).is_err(), "{spelling:02x?}");
            }
        }
    }
    assert!(spellings >= 8, "{spellings}");
}
