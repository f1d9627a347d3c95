uniform sampler2D sheet;

in vec3 world_normal;
in vec3 towards_eye;
in vec3 letter;
in float light;
flat in vec3 colour;
out vec4 result;

void main() {
    vec3 n = normalize(world_normal);
    vec3 e = normalize(towards_eye);
    vec3 base = colour;
#ifdef LETTERS
    vec3 ink = dot(base, vec3(0.2126, 0.7152, 0.0722)) > 0.18 ? letter_dark.rgb : letter_light.rgb;
    base = mix(base, ink, texture(sheet, letter.xy).r * letter.z);
#endif
    vec3 ambient = mix(floor_light.rgb, sky.rgb, 0.5 + 0.5 * n.y) * light;
    float direct = key.w * max(dot(n, key.xyz), 0.0) + fill.w * max(dot(n, fill.xyz), 0.0);
    float gleam = max(dot(n, normalize(key.xyz + e)), 0.0);
    gleam *= gleam; gleam *= gleam; gleam *= gleam; gleam *= gleam; gleam *= gleam;
    vec3 shade = base * (ambient + direct * (0.4 + 0.6 * light)) + vec3(0.05 * gleam * key.w);
#ifdef MIRRORED
    shade = mix(shade, tint.rgb, tint.a);
#endif
    result = vec4(encode(shade), 1.0);
}
